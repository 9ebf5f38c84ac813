import { existsSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Comparing, Differing } from '../commands/diff';
import { decoded } from '../model/file-name';
import { fileKind } from '../workspace/files';
import { canonicalUri } from '../workspace/uris';
import { nodeFiles, wayOnDisk } from './files';
import { type ChangedPath, changedPaths, runGit } from './git';
import { type FilesWithLinks, gitFiles, pathIn, uriIn } from './git-files';
import { stagedFiles } from './staged-files';

/** What `diff` was asked to compare, as it was typed. */
export interface AskedDiff {
  readonly operands: readonly string[];
  /** How many of them, the last ones, stood behind `--`. */
  readonly afterDashes: number;
}

/** Two files, or two states of a repository; a text says why there is nothing to compare. */
export async function comparingOf(
  folder: string,
  { operands, afterDashes }: AskedDiff,
): Promise<Comparing | string> {
  const named = operands.slice(0, operands.length - afterDashes);
  const paths = operands.slice(operands.length - afterDashes);
  if (named.length === 2 && paths.length === 0 && named.every((each) => existsSync(resolve(folder, each))))
    return twoFiles(folder, named);
  const top = await runGit(folder, ['rev-parse', '--show-toplevel']);
  if (top.code === 127) return 'git is not to be found: without it two files can be compared, no revisions';
  if (top.code !== 0) return 'this folder is in no git repository: name two files';
  const root = top.stdout.toString().replace(/\r?\n$/, '');
  const revisions: string[] = [];
  for (const [k, each] of named.entries()) {
    const range = revisions.length === 0 ? await rangeOf(root, each) : await single(root, each);
    if (range === null) {
      const rest = named.slice(k);
      const stray = rest.find((path) => !existsSync(resolve(folder, path)));
      if (stray !== undefined) return `${stray} is neither a revision nor a file`;
      return betweenRevisions(
        root,
        revisions,
        [...rest, ...paths].map((path) => resolve(folder, path)),
      );
    }
    revisions.push(...range);
  }
  if (revisions.length > 2) return 'two revisions are compared, not more';
  return betweenRevisions(
    root,
    revisions,
    paths.map((path) => resolve(folder, path)),
  );
}

function twoFiles(folder: string, [was, now]: readonly string[]): Comparing | string {
  const [before, after] = [was, now].map((path) => pathToFileURL(resolve(folder, path)).href);
  const aFolder = [was, now].find((path) => statSync(resolve(folder, path)).isDirectory());
  if (aFolder !== undefined) return `${aFolder} is a folder: two files are compared`;
  const stray = [was, now].find((path) => fileKind(pathToFileURL(resolve(folder, path)).href) === null);
  if (stray !== undefined)
    return `${stray}: not a Framewright file: the name must end in .chassis.yaml or .readings.yaml, or be .framewright.yaml`;
  const files = nodeFiles();
  const file: Differing = {
    path: now,
    was: was === now ? null : was,
    status: 'modified',
    before,
    after,
    notes: [],
    passage: null,
  };
  return { before: { name: was, files }, after: { name: now, files }, files: [file], root: null };
}

/** The commit of a revision; null where there is none. */
async function commitOf(root: string, revision: string): Promise<string | null> {
  if (revision.startsWith('-')) return null;
  const { code, stdout } = await runGit(root, ['rev-parse', '--verify', '--quiet', `${revision}^{commit}`]);
  return code === 0 ? stdout.toString().trim() : null;
}

const single = async (root: string, revision: string): Promise<string[] | null> =>
  (await commitOf(root, revision)) === null ? null : [revision];

/** `A..B`, `A...B` (from where they parted), or one revision; an end that is not written is HEAD. */
async function rangeOf(root: string, typed: string): Promise<string[] | null> {
  const at = typed.indexOf('..');
  if (at === -1) return single(root, typed);
  const dots = typed.startsWith('...', at) ? '...' : '..';
  const [from, to] = [typed.slice(0, at) || 'HEAD', typed.slice(at + dots.length) || 'HEAD'];
  if ((await commitOf(root, from)) === null || (await commitOf(root, to)) === null) return null;
  if (dots === '..') return [from, to];
  const { code, stdout } = await runGit(root, ['merge-base', from, to]);
  return code === 0 ? [stdout.toString().trim(), to] : null;
}

/** No path from the top is called so. */
const outside = '\n';

const isIn = (path: string, folder: string): boolean =>
  folder === '' || path === folder || path.startsWith(`${folder}/`);

async function betweenRevisions(
  root: string,
  [from = 'HEAD', to]: readonly string[],
  paths: readonly string[],
): Promise<Comparing | string> {
  const revisions = [await commitOf(root, from), to === undefined ? null : await commitOf(root, to)];
  const [before, after] = revisions;
  if (before === null) return `there is no revision ${from}`;
  const uris = paths.map((path) => pathToFileURL(path).href);
  const wanted = uris.map((uri) => pathIn(root, uri) ?? outside);
  const isWanted = (path: string): boolean => wanted.length === 0 || wanted.some((each) => isIn(path, each));
  const all = await changedPaths(root, before, after);
  const changes = all.filter(
    ({ path, oldPath }) => isWanted(path) || (oldPath !== null && isWanted(oldPath)),
  );
  const old = gitFiles(root, before);
  const now =
    after === null
      ? { ...nodeFiles(), wayOf: wayOnDisk, links: () => stagedLinks(root) }
      : gitFiles(root, after);
  for (const [k, uri] of uris.entries()) {
    const isThere =
      existsSync(paths[k]) ||
      all.some(({ path, oldPath }) => [path, oldPath].some((each) => each !== null && isIn(each, wanted[k])));
    if (!isThere && (await old.read(uri)).kind === 'missing' && (await now.read(uri)).kind === 'missing')
      return `${decoded(wanted[k] === outside ? uri : wanted[k])}: there is no such file, here or in what is compared`;
  }
  const differing = changes
    .filter(
      ({ path, oldPath, passage }) =>
        passage !== null || [path, oldPath].some((each) => each !== null && fileKind(`/${each}`) !== null),
    )
    .map((change) => differingOf(root, change));
  return {
    before: { name: from, files: old, wayOf: old.wayOf },
    after: { name: after === null ? 'the work tree' : (to ?? ''), files: now, wayOf: now.wayOf },
    root: pathToFileURL(`${root}/`).href,
    files: [...differing, ...(await behindLinks(root, all, old, now)).filter(({ path }) => isWanted(path))],
  };
}

function differingOf(root: string, { path, oldPath, status, passage }: ChangedPath): Differing {
  const isOurs = fileKind(`/${path}`) !== null;
  return {
    path,
    was: oldPath,
    status,
    before: status === 'added' ? null : uriIn(root, oldPath ?? path),
    after: status === 'deleted' ? null : uriIn(root, path),
    notes: [],
    // a link with a name of ours is read as a file
    passage:
      passage === null || (isOurs && passage === 'link') ? null : { kind: passage, change: words[status] },
  };
}

const words: Readonly<Record<ChangedPath['status'], string>> = {
  added: 'added',
  deleted: 'deleted',
  renamed: 'renamed',
  modified: 'changed',
};

type Linked = Pick<FilesWithLinks, 'wayOf' | 'links'>;

const stagedLinks = async (root: string): Promise<readonly string[]> => (await stagedFiles(root)).links();

/** Links with a name of ours that are as they were, and lead to a file of another name that changed. */
async function behindLinks(
  root: string,
  changes: readonly ChangedPath[],
  before: Linked,
  after: Linked,
): Promise<Differing[]> {
  const places = (paths: readonly (string | null)[]): ReadonlySet<string> =>
    new Set(paths.flatMap((path) => (path === null ? [] : [canonicalUri(uriIn(root, path))])));
  const names = changes.flatMap(({ path, oldPath }) => [path, oldPath]);
  const own = places(names);
  const others = places(names.filter((name) => fileKind(`/${name}`) === null));
  if (others.size === 0) return [];
  const found: Differing[] = [];
  for (const uri of new Set([...(await before.links()), ...(await after.links())])) {
    if (own.has(canonicalUri(uri))) continue;
    const way = [...(await before.wayOf(uri)), ...(await after.wayOf(uri))];
    if (!way.some((each) => others.has(each))) continue;
    const path = pathIn(root, uri);
    if (path !== null)
      found.push({ path, was: null, status: 'modified', before: uri, after: uri, notes: [], passage: null });
  }
  return found;
}
