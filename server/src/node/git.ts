import { spawn, spawnSync } from 'node:child_process';
import { largestFile } from '../workspace/files';
import { messageOf } from './error-code';
import { gitEnvironment } from './git-environment';

/** The program `git`, run without a shell: nothing that a file or a branch is called can become a command or an option. */

interface GitRun {
  /** Its exit code; 127 where there is no such program, 126 where it could not be run or said too much. */
  readonly code: number;
  readonly stdout: Buffer;
  readonly stderr: string;
}

/** More than the largest file of ours, bytes. */
const mostOutput = 8 * largestFile;

/**
 * Runs git in a folder. It asks nobody anything and takes no lock that it can do without. Never rejects.
 * @param repository that which the environment gives (a hook has one), or the folder's own
 */
export function runGit(
  folder: string,
  args: readonly string[],
  repository: 'given' | 'own' = 'given',
): Promise<GitRun> {
  return new Promise((resolve) => {
    const failed = (code: number, stderr: string): void =>
      resolve({ code, stdout: Buffer.alloc(0), stderr: stderr.trim() });
    try {
      const git = spawn('git', args, {
        cwd: folder,
        stdio: ['ignore', 'pipe', 'pipe'],
        windowsHide: true,
        env: gitEnvironment(folder, repository),
      });
      const [out, said]: [Buffer[], Buffer[]] = [[], []];
      let size = 0;
      git.stdout.on('data', (piece: Buffer) => {
        size += piece.length;
        if (size > mostOutput) git.kill();
        else out.push(piece);
      });
      git.stderr.on('data', (piece: Buffer) => said.push(piece));
      git.on('error', (error: NodeJS.ErrnoException) =>
        failed(error.code === 'ENOENT' ? 127 : 126, messageOf(error)),
      );
      git.on('close', (code) => {
        if (size > mostOutput) failed(126, 'git printed more than any file of ours can hold');
        else
          resolve({
            code: code ?? 126,
            stdout: Buffer.concat(out),
            stderr: Buffer.concat(said).toString().trim(),
          });
      });
    } catch (error) {
      // a NUL in an argument, which no system takes
      failed(126, messageOf(error));
    }
  });
}

/** The byte-order mark stays: it counts as a character of the first line. */
const utf8 = new TextDecoder('utf-8', { ignoreBOM: true });

/** An option is no revision, whatever it is called. */
const isOption = (revision: string): boolean => revision.startsWith('-');

/**
 * The text of a blob; null where there is none of that name.
 * @param name its id, or `REVISION:PATH`, the path from the top with slashes
 */
export async function blobWith(
  folder: string,
  name: string,
  repository: 'given' | 'own' = 'given',
): Promise<string | null> {
  if (isOption(name)) return null;
  const { code, stdout } = await runGit(folder, ['cat-file', 'blob', name], repository);
  return code === 0 ? utf8.decode(stdout) : null;
}

/** So many are asked for at once. */
const portion = 400;

/** The texts of many blobs, by their ids. Of what cannot be had so nothing is said. */
export function blobsWith(folder: string, ids: readonly string[]): ReadonlyMap<string, string> {
  const texts = new Map<string, string>();
  for (let at = 0; at < ids.length; at += portion) {
    const some = ids.slice(at, at + portion);
    const { stdout } = spawnSync('git', ['cat-file', '--batch'], {
      cwd: folder,
      input: some.map((id) => `${id}\n`).join(''),
      maxBuffer: portion * largestFile,
      windowsHide: true,
      env: gitEnvironment(folder, 'given'),
    });
    blobsIn(stdout ?? Buffer.alloc(0)).forEach((text, k) => {
      if (text !== null) texts.set(some[k], text);
    });
  }
  return texts;
}

/** What `cat-file --batch` prints: `ID blob SIZE`, a line end, the bytes, a line end; or a line that says there is none. */
function blobsIn(bytes: Buffer): (string | null)[] {
  const blobs: (string | null)[] = [];
  for (let at = 0; at < bytes.length; ) {
    const end = bytes.indexOf(10, at);
    if (end < 0) break;
    const size = / blob (\d+)$/.exec(bytes.toString('utf8', at, end))?.[1];
    at = end + 1;
    if (size === undefined) {
      blobs.push(null);
      continue;
    }
    blobs.push(utf8.decode(bytes.subarray(at, at + Number(size))));
    at += Number(size) + 1;
  }
  return blobs;
}

export interface ChangedPath {
  /** `added`, `deleted`, `renamed`; anything else is `modified`. */
  readonly status: 'added' | 'deleted' | 'renamed' | 'modified';
  /** From the root of the repository, with slashes; of a deleted file as it was called. */
  readonly path: string;
  /** What a renamed file was called; null of others. */
  readonly oldPath: string | null;
  /** What it is or was, where that is no ordinary file. */
  readonly passage: 'link' | 'module' | null;
}

/** What is staged. */
export const index = Symbol('index');

const statuses: Readonly<Record<string, ChangedPath['status']>> = {
  A: 'added',
  C: 'added',
  D: 'deleted',
  R: 'renamed',
};

/**
 * The files that differ between two revisions. Files that git does not know are not among them.
 * @param to null: the work tree; `index`: what is staged
 * @throws where git cannot tell, with what it says
 */
export async function changedPaths(
  folder: string,
  from: string,
  to: string | null | typeof index,
): Promise<readonly ChangedPath[]> {
  const revisions = [from, ...(typeof to === 'string' ? [to] : [])];
  const option = revisions.find(isOption);
  if (option !== undefined) throw new Error(`${option}: an option is no revision`);
  const args = ['--raw', '-z', '-M', '--no-relative', '--no-ext-diff', '--no-textconv'];
  const modules = '--ignore-submodules=none';
  const staged = to === index ? ['--cached'] : [];
  const { code, stdout, stderr } = await runGit(folder, [
    'diff',
    ...args,
    modules,
    ...staged,
    ...revisions,
    '--',
  ]);
  if (code !== 0) throw new Error(stderr || `git ended with code ${code}`);
  return changesIn(stdout.toString());
}

/** What `--raw -z` prints: `:MODE MODE ID ID LETTER`, then one name, of a renamed or copied file two, each closed by NUL. */
function changesIn(text: string): ChangedPath[] {
  const words = text.split('\0');
  const changes: ChangedPath[] = [];
  for (let at = 0; at + 1 < words.length; ) {
    const [before, after, , , letters = ''] = words[at].slice(1).split(' ');
    const letter = letters[0];
    const status = statuses[letter] ?? 'modified';
    const hasTwo = letter === 'R' || letter === 'C';
    const path = words[at + (hasTwo ? 2 : 1)];
    const isMode = (mode: string): boolean => before === mode || after === mode;
    const passage = isMode('160000') ? 'module' : isMode('120000') ? 'link' : null;
    changes.push({ status, path, oldPath: letter === 'R' ? words[at + 1] : null, passage });
    at += hasTwo ? 3 : 2;
  }
  return changes;
}
