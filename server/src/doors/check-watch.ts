import { statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { newsBetween, type Said, saidBy } from '../commands/check-again';
import type { Output } from '../commands/check-selected';
import type { Target } from '../commands/collect';
import { baselineName } from '../node/baseline-place';
import { nodeFiles, pathOf } from '../node/files';
import { watched } from '../node/watch';
import { wayTo } from '../node/way';
import { printable } from '../text/printable';
import { fileKind } from '../workspace/files';
import { strays } from './check-paths';

/** `check --watch`: a check that is made again whenever something changed. */

/** Where lines go that are read while the check goes on. */
interface Live extends Output {
  flush(): void;
}

/** A check that prints to an output, and tells each file that had a part in what it says. */
type Check = (output: Output, restsOn: (uris: readonly string[]) => void) => Promise<number>;

/** Checks, and again whenever a file of ours changes, until it is told to end or nobody reads on; the exit code is that of the last check. */
export async function checkedAgain(
  paths: readonly Target[],
  check: Check,
  output: Live,
  toldToEnd: Promise<void> = ended(),
): Promise<number> {
  // a slip of the hand must not be waited for
  const gone = strays(paths, []);
  gone.forEach(output.complain);
  if (gone.length > 0) return 2;
  const { whole, alone } = await placesOf(paths);
  const known = new Set<string>();
  const restsOn = (uris: readonly string[]): void => {
    for (const path of uris.flatMap(waysTo)) {
      known.add(path);
      alone.add(dirname(path));
    }
  };
  let last: Said | null = null;
  let hasEnded = false;
  const look = async (unwatched: readonly string[]): Promise<void> => {
    const now = await saidBy((to) => check(to, restsOn), unwatched.map(complaint));
    if (hasEnded) return;
    newsBetween(last, now).forEach(output.print);
    output.flush();
    last = now;
  };
  const end = toldToEnd.then(() => {
    hasEnded = true;
  });
  // what changes during the first check is seen, too
  const watching = watched({ whole, alone }, (path) => known.has(path) || isOurs(basename(path)), look);
  if (typeof watching === 'string') {
    output.complain(complaint(watching));
    return 2;
  }
  try {
    await Promise.race([watching.look(), end]);
    await end;
  } finally {
    watching.end();
  }
  return last === null ? 2 : (last as Said).code;
}

const complaint = (line: string): string => printable(`framewright: ${line}`);

const isOurs = (name: string): boolean =>
  fileKind(`/${name}`) !== null || name === baselineName || name === '.gitignore';

/** Ctrl-C, a request to end, or nobody who reads what is printed. */
const ended = (): Promise<void> =>
  new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
    process.stdout.once('error', () => resolve());
  });

/** The repositories of what is named. Where there is none: its folder, and those above it for their settings. */
async function placesOf(paths: readonly Target[]): Promise<{ whole: string[]; alone: Set<string> }> {
  const files = nodeFiles();
  const whole = new Set<string>();
  const alone = new Set<string>();
  for (const { uri } of paths) {
    const path = resolve(pathOf(uri) ?? '.');
    const isFolder = statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
    const folder = isFolder ? path : dirname(path);
    const root = await files.root(pathToFileURL(join(folder, 'a file')).href);
    whole.add(root === null ? folder : resolve(pathOf(root) ?? folder));
    if (root !== null) continue;
    for (let at = dirname(folder); !alone.has(at); at = dirname(at)) alone.add(at);
  }
  return { whole: [...whole], alone };
}

/** The links on the way to a file, and where it lies in the end. */
const waysTo = (uri: string): string[] => {
  const path = pathOf(uri);
  return path === null ? [] : wayTo(path);
};
