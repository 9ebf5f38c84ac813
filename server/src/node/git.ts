import { spawn } from 'node:child_process';
import { largestFile } from '../workspace/files';
import { messageOf } from './error-code';

/** The program `git`, run without a shell: nothing that a file or a branch is called can become a command or an option. */

interface GitRun {
  /** Its exit code; 127 where there is no such program, 126 where it could not be run or said too much. */
  readonly code: number;
  readonly stdout: Buffer;
  readonly stderr: string;
}

/** More than the largest file of ours, bytes. */
const mostOutput = 8 * largestFile;

/** Runs git in a folder. It asks nobody anything and takes no lock that it can do without. Never rejects. */
export function runGit(folder: string, args: readonly string[]): Promise<GitRun> {
  return new Promise((resolve) => {
    const failed = (code: number, stderr: string): void =>
      resolve({ code, stdout: Buffer.alloc(0), stderr: stderr.trim() });
    try {
      const git = spawn('git', args, {
        cwd: folder,
        stdio: ['ignore', 'pipe', 'pipe'],
        windowsHide: true,
        env: { ...process.env, GIT_OPTIONAL_LOCKS: '0', GIT_TERMINAL_PROMPT: '0', LC_ALL: 'C' },
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
 * The text of a file as a revision has it; null where the revision has no such file, or is none.
 * @param folder in the repository; @param revision empty: what is staged; @param path from the root of the repository, with slashes
 */
export async function blobAt(folder: string, revision: string, path: string): Promise<string | null> {
  if (isOption(revision)) return null;
  const { code, stdout } = await runGit(folder, ['cat-file', 'blob', `${revision}:${path}`]);
  return code === 0 ? utf8.decode(stdout) : null;
}

interface ChangedPath {
  /** `added`, `deleted`, `renamed`; anything else is `modified`. */
  readonly status: 'added' | 'deleted' | 'renamed' | 'modified';
  /** From the root of the repository, with slashes; of a deleted file as it was called. */
  readonly path: string;
  /** What a renamed file was called; null of others. */
  readonly oldPath: string | null;
}

const statuses: Readonly<Record<string, ChangedPath['status']>> = {
  A: 'added',
  C: 'added',
  D: 'deleted',
  R: 'renamed',
};

/**
 * The files that differ between two revisions. Files that git does not know are not among them.
 * @param to null: the work tree
 * @throws where git cannot tell, with what it says
 */
export async function changedPaths(
  folder: string,
  from: string,
  to: string | null,
): Promise<readonly ChangedPath[]> {
  if ([from, to ?? ''].some(isOption)) throw new Error(`${from} ${to ?? ''}: an option is no revision`);
  const revisions = to === null ? [from] : [from, to];
  const args = ['diff', '--name-status', '-z', '-M', '--no-relative', '--no-ext-diff', '--no-textconv'];
  const { code, stdout, stderr } = await runGit(folder, [...args, ...revisions, '--']);
  if (code !== 0) throw new Error(stderr || `git ended with code ${code}`);
  return changesIn(stdout.toString());
}

/** What `--name-status -z` prints: a letter, then one name, of a renamed or copied file two, each closed by NUL. */
function changesIn(text: string): ChangedPath[] {
  const words = text.split('\0');
  const changes: ChangedPath[] = [];
  for (let at = 0; at + 1 < words.length; ) {
    const letter = words[at][0];
    const status = statuses[letter] ?? 'modified';
    const hasTwo = letter === 'R' || letter === 'C';
    const path = words[at + (hasTwo ? 2 : 1)];
    changes.push({ status, path, oldPath: letter === 'R' ? words[at + 1] : null });
    at += hasTwo ? 3 : 2;
  }
  return changes;
}
