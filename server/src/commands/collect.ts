import { type Settings, settingsFrom } from '../model/read/settings';
import { parseText } from '../text/yaml/parse';
import { type Files, fileKind } from '../workspace/files';

/** A file to look at, and how the command line named it. */
export interface Target {
  readonly uri: string;
  readonly path: string;
}

export type Collected = { readonly targets: Target[] } | { readonly error: string };

/** What a path given on the command line stands for: a file, or all files of ours below a folder. */
export async function collected(files: Files, uri: string, path: string): Promise<Collected> {
  const read = await files.read(uri);
  if (read.kind === 'folder') {
    const folder = uri.endsWith('/') ? uri : `${uri}/`;
    const settings = await folderSettings(files, folder);
    const uris = await files.list(folder, settings.ignoredFolders);
    if (uris.length === 0)
      return { error: `${path}: no *.chassis.yaml or *.readings.yaml below this folder` };
    return {
      targets: uris.map((each) => ({
        uri: each,
        path: joined(path, decodeURIComponent(each.slice(folder.length))),
      })),
    };
  }
  if (read.kind !== 'text') return { error: `${path}: ${read.message}` };
  if (fileKind(uri) === null)
    return {
      error: `${path}: not a file of ours: its name ends in .chassis.yaml or .readings.yaml, or is .framewright.yaml`,
    };
  return { targets: [{ uri, path }] };
}

async function folderSettings(files: Files, folder: string): Promise<Settings> {
  const read = await files.read(`${folder}.framewright.yaml`);
  return settingsFrom(parseText(read.kind === 'text' ? read.text : '')).settings;
}

const joined = (path: string, rest: string): string =>
  path === '.' ? rest : `${path.replace(/[\\/]+$/, '')}/${rest}`;
