import { join, resolve } from 'node:path';
import { changedPaths, runGit } from './git';

/** Which files git holds for changed. Paths are names of this machine. */

/** What the files are held against. */
export type Against =
  | { readonly kind: 'head' }
  /** What is staged, against the last commit. */
  | { readonly kind: 'staged' }
  /** The work tree against a revision. */
  | { readonly kind: 'since'; readonly revision: string };

interface Changes {
  /** Folder of the repository, as it is reached from the folder that was asked from. */
  readonly root: string;
  /** Changed, new, deleted and renamed files, these by both names. */
  readonly paths: readonly string[];
}

/**
 * What changed in the repository of a folder. Files that git does not know yet are changed in the work tree, unless a `.gitignore` names them.
 * @throws where git cannot tell, with what it says
 */
export async function changesIn(folder: string, against: Against): Promise<Changes> {
  const up = await asked(folder, ['rev-parse', '--show-cdup']);
  const root = resolve(folder, up.trim());
  const names =
    against.kind === 'staged' ? await stagedNames(root) : await workTreeNames(root, revisionOf(against));
  return { root, paths: [...new Set(names)].sort().map((name) => join(root, name)) };
}

const revisionOf = (against: Exclude<Against, { kind: 'staged' }>): string =>
  against.kind === 'since' ? against.revision : 'HEAD';

const stagedNames = async (root: string): Promise<string[]> =>
  namesIn(await asked(root, ['diff', '--cached', '--name-only', '--no-renames', '-z', '--no-ext-diff']));

async function workTreeNames(root: string, revision: string): Promise<string[]> {
  const others = namesIn(await asked(root, ['ls-files', '--others', '--exclude-standard', '-z']));
  const isFirst =
    revision === 'HEAD' && (await runGit(root, ['rev-parse', '--verify', '-q', 'HEAD'])).code !== 0;
  // before the first commit everything is new
  if (isFirst) return [...others, ...namesIn(await asked(root, ['ls-files', '-z']))];
  const changed = await changedPaths(root, revision, null);
  return [...others, ...changed.flatMap(({ path, oldPath }) => (oldPath === null ? path : [oldPath, path]))];
}

const namesIn = (text: string): string[] => text.split('\0').filter((name) => name !== '');

async function asked(folder: string, args: readonly string[]): Promise<string> {
  const { code, stdout, stderr } = await runGit(folder, args);
  if (code !== 0)
    throw new Error(code === 127 ? 'there is no program git' : stderr.split('\n')[0] || 'git failed');
  return stdout.toString();
}
