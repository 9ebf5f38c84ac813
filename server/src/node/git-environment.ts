import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { realPath } from './list';

/** What git would take for the repository of a folder, whichever it is (`git rev-parse --local-env-vars`). */
const ofOneRepository = [
  'GIT_DIR',
  'GIT_WORK_TREE',
  'GIT_INDEX_FILE',
  'GIT_PREFIX',
  'GIT_COMMON_DIR',
  'GIT_OBJECT_DIRECTORY',
  'GIT_ALTERNATE_OBJECT_DIRECTORIES',
  'GIT_NAMESPACE',
];

/**
 * What git is told when it is run in a folder: it asks nobody anything and takes no lock that it can do without. Where `GIT_DIR` alone is given git takes
 * the folder it is run in for the top of the work tree; where it names the repository that the folder is in anyway it is left away.
 * @param repository that which the environment gives (a hook has one), or the folder's own
 */
export function gitEnvironment(folder: string, repository: 'given' | 'own'): NodeJS.ProcessEnv {
  const { GIT_DIR, GIT_WORK_TREE } = process.env;
  const isSame =
    GIT_DIR !== undefined && GIT_WORK_TREE === undefined && isOwn(folder, resolve(process.cwd(), GIT_DIR));
  const without = repository === 'own' ? ofOneRepository : isSame ? ['GIT_DIR', 'GIT_PREFIX'] : [];
  return {
    ...process.env,
    ...Object.fromEntries(without.map((name) => [name, undefined])),
    GIT_OPTIONAL_LOCKS: '0',
    GIT_TERMINAL_PROMPT: '0',
    LC_ALL: 'C',
  };
}

/** Whether git would find this repository from a folder upwards. */
function isOwn(folder: string, repository: string): boolean {
  for (let at = folder; ; at = dirname(at)) {
    const path = join(at, '.git');
    if (existsSync(path)) return realPath(repositoryAt(path)) === realPath(repository);
    if (dirname(at) === at) return false;
  }
}

/** `.git` is the repository, or a file that names it (`gitrepository-layout`). */
function repositoryAt(path: string): string {
  try {
    if (statSync(path).isDirectory()) return path;
    return resolve(
      dirname(path),
      readFileSync(path, 'utf8')
        .replace(/^gitdir: /, '')
        .trimEnd(),
    );
  } catch {
    return path;
  }
}
