import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { compared, type Differing, type Side } from '../commands/diff';
import { diffText } from '../commands/formats/diff-text';
import { printable } from '../text/printable';
import { type Files, fileKind } from '../workspace/files';
import { canonicalUri } from '../workspace/uris';
import { messageOf } from './error-code';
import { nodeFiles } from './files';
import { runGit } from './git';
import { gitFiles, uriIn } from './git-files';

/** What git calls for a file that differs (`gitattributes`, "Defining an external diff driver"), by how many arguments it gives. */
interface External {
  /** From the top of the work tree. */
  readonly path: string;
  readonly newPath: string;
  readonly old: Blob;
  readonly now: Blob;
}

interface Blob {
  /** A temporary file, or the one in the work tree; `/dev/null`: there is none. */
  readonly file: string;
  /** Its id; a dot, or zeros, where git did not make one. */
  readonly id: string;
}

const nowhere = '/dev/null';

/**
 * The answer to git's call: lines for people. It never throws, and where nothing can be told it gives the plain names: a program that fails
 * here ends all of `git diff`.
 */
export async function externalDiff(folder: string, args: readonly string[]): Promise<string[]> {
  if (args.length === 1) return [printable(`${args[0]}: not merged yet`)];
  const [path, oldFile, oldId, , newFile, newId, , newPath = path] = args;
  const external = { path, newPath, old: { file: oldFile, id: oldId }, now: { file: newFile, id: newId } };
  try {
    if (fileKind(`/${path}`) === null && fileKind(`/${newPath}`) === null) return plainNames(external, null);
    return [...(await told(folder, external)), ''];
  } catch (error) {
    return plainNames(external, messageOf(error));
  }
}

const plainNames = ({ path, newPath, old, now }: External, why: string | null): string[] => [
  printable(`--- ${old.file === nowhere ? nowhere : `a/${path}`}`),
  printable(`+++ ${now.file === nowhere ? nowhere : `b/${newPath}`}${why === null ? '' : `: ${why}`}`),
];

async function told(folder: string, { path, newPath, old, now }: External): Promise<string[]> {
  const top = await runGit(folder, ['rev-parse', '--show-toplevel']);
  const root = top.code === 0 ? top.stdout.toString().replace(/\r?\n$/, '') : folder;
  const isWorkTree = resolve(folder, now.file) === resolve(root, newPath);
  const before = await sideOf({ root, folder, path, blob: old, first: isWorkTree ? '' : 'HEAD' });
  const after = await sideOf({ root, folder, path: newPath, blob: now, first: 'HEAD' });
  const file: Differing = {
    path: newPath,
    was: path === newPath ? null : path,
    status:
      before === null ? 'added' : after === null ? 'deleted' : path === newPath ? 'modified' : 'renamed',
    before: before && uriIn(root, path),
    after: after && uriIn(root, newPath),
    notes: [...noteOf('before', before), ...noteOf('now', after)],
    passage: null,
  };
  const nothing: Side = { name: nowhere, files: nodeFiles() };
  const { diff, told: files } = await compared({
    before: before ?? nothing,
    after: after ?? nothing,
    files: [file],
    root: null,
  });
  return diffText(diff.verdict, files);
}

const noteOf = (word: string, side: (Side & { readonly note: string | null }) | null): string[] =>
  side === null || side.note === null ? [] : [`${word}: ${side.note}`];

interface AskedSide {
  readonly root: string;
  readonly folder: string;
  readonly path: string;
  readonly blob: Blob;
  /** Of the index (empty) and HEAD the one to be asked first. */
  readonly first: '' | 'HEAD';
}

/** The file as git hands it over, and round it the files of the revision that it is from; null where there is none. */
async function sideOf(asked: AskedSide): Promise<(Side & { readonly note: string | null }) | null> {
  const { root, folder, path, blob } = asked;
  if (blob.file === nowhere) return null;
  const file = resolve(folder, blob.file);
  if (file === resolve(root, path)) return { name: 'the work tree', files: nodeFiles(), note: null };
  const text = readFileSync(file, 'utf8');
  const revision = await revisionOf(asked);
  const name = revision === '' ? 'what is staged' : revision;
  const around = revision === null ? nodeFiles() : gitFiles(root, revision);
  return {
    name: name ?? path,
    files: withText(around, uriIn(root, path), text, revision !== null),
    note:
      name === null
        ? 'no revision has this text: what it rests on cannot be read'
        : `judged by the files of ${short(name)}`,
  };
}

const short = (name: string): string => (/^[0-9a-f]{40,}$/.test(name) ? name.slice(0, 10) : name);

const withText = (files: Files, uri: string, text: string, hasOthers: boolean): Files => ({
  ...files,
  read: async (asked) =>
    canonicalUri(asked) === canonicalUri(uri)
      ? { kind: 'text', text }
      : hasOthers
        ? files.read(asked)
        : { kind: 'missing', message: 'the revision of this side is not known' },
});

/** So many commits are looked at. */
const mostCommits = 20;

/** A revision that has this file with this content: git does not say which one it compares. The last one that had it, if several do. */
async function revisionOf({ root, path, blob: { id }, first }: AskedSide): Promise<string | null> {
  if (!/^[0-9a-f]{40,64}$/.test(id) || /^0+$/.test(id)) return null;
  const has = async (revision: string): Promise<boolean> => {
    const { code, stdout } = await runGit(root, ['rev-parse', '--verify', '--quiet', `${revision}:${path}`]);
    return code === 0 && stdout.toString().trim() === id;
  };
  for (const revision of first === '' ? ['', 'HEAD'] : ['HEAD', '']) if (await has(revision)) return revision;
  const found = await runGit(root, [
    'log',
    '--all',
    `--max-count=${mostCommits}`,
    '--format=%H %P',
    `--find-object=${id}`,
    '--',
    path,
  ]);
  for (const commit of found.stdout.toString().split(/\s+/))
    if (commit !== '' && (await has(commit))) return commit;
  return null;
}
