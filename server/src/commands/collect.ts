import { decoded } from '../model/file-name';
import { type Files, fileKind } from '../workspace/files';
import { Workspace } from '../workspace/workspace';

/** A file to look at, and how the command line named it. */
export interface Target {
  readonly uri: string;
  readonly path: string;
}

export type Collected = { readonly targets: Target[] } | { readonly error: string };

/** What a path given on the command line stands for: a file, ignored or not, or all files of ours below a folder that settings do not ignore. */
export async function collected(files: Files, uri: string, path: string): Promise<Collected> {
  const read = await files.read(uri);
  if (read.kind === 'folder') {
    const folder = uri.endsWith('/') ? uri : `${uri}/`;
    const { uris, leavesOut } = await new Workspace(files).lookedFor(folder);
    if (uris.length === 0)
      return {
        error: leavesOut
          ? `${path}: all files below this folder are ignored by .framewright.yaml; a file that is named itself is looked at`
          : `${path}: no *.chassis.yaml or *.readings.yaml below this folder`,
      };
    return {
      targets: uris.map((each) => ({
        uri: each,
        path: joined(path, decoded(each.slice(folder.length))),
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

const joined = (path: string, rest: string): string =>
  path === '.' ? rest : `${path.replace(/(?<![\\/])[\\/]+$/, '')}/${rest}`;
