import { lstatSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileKind } from '../workspace/files';
import { changedPaths, index, runGit } from './git';
import { entriesIn } from './tree-files';

/** Which files git holds for changed. Paths are names of this machine. */

/** What the files are held against. */
export type Against =
  | { readonly kind: 'head' }
  /** What is staged, against the last commit. */
  | { readonly kind: 'staged' }
  /** The work tree against a revision. */
  | { readonly kind: 'since'; readonly revision: string };

/**
 * Folder of the repository that a folder lies in, as it is reached from there.
 * @throws where there is none, with what git says
 */
export const topAbove = async (folder: string): Promise<string> =>
  resolve(folder, (await asked(folder, ['rev-parse', '--show-cdup'])).trim());

/**
 * Changed, new, deleted and renamed files of a repository, these by both names; links and submodules among them. Files that git does not know
 * yet are changed in the work tree, unless a `.gitignore` names them.
 * @throws where git cannot tell, with what it says
 */
export async function changesIn(root: string, against: Against): Promise<string[]> {
  const changes =
    against.kind === 'staged' ? await stagedChanges(root) : await workTreeChanges(root, revisionOf(against));
  const ofOthers = changes.filter(({ name, isPassage }) => fileKind(`/${name}`) === null && !isPassage);
  // a file of another name matters where a link with a name of ours may lead to it
  const counted =
    ofOthers.length === 0 || (await hasLinks(root, changes))
      ? changes
      : changes.filter((each) => !ofOthers.includes(each));
  return [...new Set(counted.map(({ name }) => name))].sort().map((name) => join(root, name));
}

interface Change {
  readonly name: string;
  /** It is or was a link or a submodule, through which other files are reached. */
  readonly isPassage: boolean;
}

const revisionOf = (against: Exclude<Against, { kind: 'staged' }>): string =>
  against.kind === 'since' ? against.revision : 'HEAD';

const hasCommit = async (root: string): Promise<boolean> =>
  (await runGit(root, ['rev-parse', '--verify', '-q', 'HEAD'])).code === 0;

async function hasLinks(root: string, changes: readonly Change[]): Promise<boolean> {
  if (changes.some(({ isPassage }) => isPassage)) return true;
  const entries = entriesIn(await asked(root, ['ls-files', '-s', '-z']));
  return [...entries.values()].some(({ kind }) => kind === 'link');
}

async function stagedChanges(root: string): Promise<Change[]> {
  try {
    return changesOf(await changedPaths(root, 'HEAD', index));
  } catch (error) {
    if (await hasCommit(root)) throw error;
  }
  // before the first commit everything is new
  return (await namesOf(root, ['ls-files', '-z'])).map((name) => changeAt(root, name));
}

async function workTreeChanges(root: string, revision: string): Promise<Change[]> {
  const others = (await namesOf(root, ['ls-files', '--others', '--exclude-standard', '-z'])).map((name) =>
    changeAt(root, name),
  );
  // before the first commit everything is new
  if (revision === 'HEAD' && !(await hasCommit(root)))
    return [...others, ...(await namesOf(root, ['ls-files', '-z'])).map((name) => changeAt(root, name))];
  return [...others, ...changesOf(await changedPaths(root, revision, null))];
}

const changesOf = (changed: Awaited<ReturnType<typeof changedPaths>>): Change[] =>
  changed.flatMap(({ path, oldPath, passage }) =>
    (oldPath === null ? [path] : [oldPath, path]).map((name) => ({ name, isPassage: passage !== null })),
  );

/** Git names a repository that lies in another, and is no submodule of it, by its folder. */
function changeAt(root: string, name: string): Change {
  const status = lstatSync(join(root, name), { throwIfNoEntry: false });
  return { name: name.replace(/\/$/, ''), isPassage: status !== undefined && !status.isFile() };
}

const namesOf = async (root: string, args: readonly string[]): Promise<string[]> =>
  (await asked(root, args)).split('\0').filter((name) => name !== '');

async function asked(folder: string, args: readonly string[]): Promise<string> {
  const { code, stdout, stderr } = await runGit(folder, args);
  if (code !== 0)
    throw new Error(code === 127 ? 'there is no program git' : stderr.split('\n')[0] || 'git failed');
  return stdout.toString();
}
