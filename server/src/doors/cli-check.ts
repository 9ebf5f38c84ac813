import { existsSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { newsBetween, type Said, saidBy } from '../commands/check-again';
import {
  type Bounds,
  checkSelected,
  type Output,
  type Printing,
  type Reporting,
} from '../commands/check-selected';
import type { Target } from '../commands/collect';
import type { CheckOptions } from '../commands/file-report';
import {
  changesSelected,
  folderAround,
  pathsSelected,
  type Selection,
  type Surroundings,
  withDependents,
} from '../commands/select';
import { type BaselineUse, baselineName, isAnyBaseline } from '../node/baseline-place';
import { reportingOf } from '../node/cached-reports';
import { messageOf } from '../node/error-code';
import { nodeFiles, pathOf, wayOnDisk } from '../node/files';
import type { Against } from '../node/git-changes';
import { cacheFolder, sumOf } from '../node/kept-file';
import { KnownContents } from '../node/known-contents';
import { isBelow } from '../node/list';
import { ResultCache, resultsFolder } from '../node/result-cache';
import { watched } from '../node/watch';
import type { Making } from '../node/witness';
import { printable } from '../text/printable';
import { type Files, fileKind } from '../workspace/files';
import { canonicalUri } from '../workspace/uris';
import type * as cliBaseline from './cli-baseline';
import type * as cliJudge from './cli-judge';

/** `check` as the command line loads it: which files, and what of them was judged before. What judges is a bundle of its own. */

/** Which files, and how. */
export interface Choice {
  /** Null: those that the paths stand for. */
  readonly against: Against | null;
  /** What rests on the files that are named, too. */
  readonly dependents: boolean;
  /** A text that is judged as if it stood in the file that is named; null where none comes in. */
  readonly incoming: string | null;
  readonly cache: boolean;
  /** Default: findings are held against it. */
  readonly baseline?: BaselineUse;
  /** What judges, loaded when it is asked for. */
  judge(): typeof cliJudge;
  /** What reads and writes a baseline, the same. */
  baselines(): typeof cliBaseline;
}

interface Look {
  readonly selection: Selection;
  readonly files: Files;
  /** Other threads can read the same. */
  readonly isDisk: boolean;
}

export async function checked(
  paths: readonly Target[],
  options: CheckOptions & Printing & Bounds,
  output: Output,
  choice: Choice,
): Promise<number> {
  let look: Look;
  try {
    look = await lookOf(paths, choice);
  } catch (error) {
    output.complain(`framewright: git cannot tell what changed: ${messageOf(error).replace(/^fatal: /, '')}`);
    return 2;
  }
  const { selection, files, isDisk } = look;
  if (
    choice.against !== null &&
    selection.targets.length + selection.leftOut.length + selection.complaints.length === 0
  )
    output.complain('framewright: no file of ours changed');
  const making: Making = (targets, each) => {
    const { madeFromDisk, madeHere } = choice.judge();
    return (isDisk ? madeFromDisk(files) : madeHere(files))(targets, each);
  };
  const reporting = reportingOf(making, choice.cache ? cacheOf(files, isDisk) : null);
  const asked = paths[0]?.uri ?? uriOf(`${process.cwd()}/`);
  const { targets } = selection;
  const { baseline: use = 'hold' } = choice;
  const check = (each: Reporting) => checkSelected(selection, options, output, each);
  if (use === 'hold' && !(await isAnyBaseline(files, asked, targets))) return check(reporting);
  return choice.baselines().againstBaseline({ files, asked, targets, use }, output, reporting, check);
}

/** Where lines go that are read while the check goes on. */
interface Live extends Output {
  flush(): void;
}

/** Checks, and again whenever a file of ours changes, until it is told to end; the exit code is that of the last check. */
export async function checkedAgain(
  paths: readonly Target[],
  check: (output: Output) => Promise<number>,
  output: Live,
): Promise<number> {
  // a slip of the hand must not be waited for
  const gone = strays(paths, []);
  gone.forEach(output.complain);
  if (gone.length > 0) return 2;
  const files = nodeFiles();
  const folders = new Set<string>();
  for (const { uri } of paths) folders.add(pathOf(await folderAround(files, uri)) ?? process.cwd());
  const print = (lines: readonly string[]): void => {
    lines.forEach(output.print);
    output.flush();
  };
  let last: Said | null = null;
  const look = async (): Promise<void> => {
    const now = await saidBy(check);
    print(newsBetween(last, now));
    last = now;
  };
  const matters = (name: string): boolean =>
    fileKind(`/${name}`) !== null || name === baselineName || name === '.gitignore';
  // what changes during the first check is seen, too
  const watching = watched([...folders], matters, look);
  if (typeof watching === 'string') {
    output.complain(printable(`framewright: ${watching}`));
    return 2;
  }
  const end = new Promise<void>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, resolve);
  });
  await watching.look();
  await end;
  watching.end();
  return last === null ? 2 : (last as Said).code;
}

async function lookOf(paths: readonly Target[], choice: Choice): Promise<Look> {
  const { against, dependents, incoming } = choice;
  if (against !== null) {
    // what runs git is loaded only here
    const [{ changesIn, topAbove }, { stagedFiles }] = await Promise.all([
      import('../node/git-changes'),
      import('../node/staged-files'),
    ]);
    const root = await topAbove(process.cwd());
    const isDisk = against.kind !== 'staged';
    const asking = Promise.all([changesIn(root, against), isDisk ? onDisk(nodeFiles()) : stagedFiles(root)]);
    // loaded while git looks: what is committed has files of ours, as a rule
    choice.judge();
    const [changed, there] = await asking;
    const around = { files: there, folder: uriOf(`${root}/`), pathOf: toldPath, wayOf: there.wayOf };
    const selection = await changesSelected(changed.map(uriOf), paths, around);
    const complaints = strays(paths, changed);
    return { selection: { ...selection, complaints }, files: there, isDisk };
  }
  const disk = nodeFiles();
  const files = incoming === null ? disk : withText(disk, paths[0].uri, incoming);
  const named = await pathsSelected(files, paths);
  const selection = dependents ? await withAllDependents(named, paths, onDisk(files)) : named;
  return { selection, files, isDisk: incoming === null };
}

/** Paths at which nothing is, and nothing was: a slip of the hand must not pass. */
const strays = (paths: readonly Target[], changed: readonly string[]): string[] =>
  paths
    .filter(({ uri }) => {
      const path = pathOf(uri);
      return path === null || (!existsSync(path) && !changed.some((each) => isBelow(each, path)));
    })
    .map(({ path }) => printable(`framewright: ${path}: there is no such file`));

/** Those that are named may lie in several repositories. */
async function withAllDependents(
  selection: Selection,
  paths: readonly Target[],
  files: Files & Pick<Surroundings, 'wayOf'>,
): Promise<Selection> {
  let all = selection;
  for (const path of paths) {
    const folder = await folderAround(files, path.uri);
    all = await withDependents(all, [path], { files, folder, pathOf: toldPath, wayOf: files.wayOf });
  }
  return all;
}

/** A text in place of what a file holds. */
const withText = (files: Files, uri: string, text: string): Files => ({
  ...files,
  read: async (each) =>
    canonicalUri(each) === canonicalUri(uri) ? { kind: 'text', text } : files.read(each),
});

const onDisk = (files: Files): Files & Pick<Surroundings, 'wayOf'> => ({ ...files, wayOf: wayOnDisk });

const uriOf = (path: string): string => pathToFileURL(path).href;

/** From the folder that the command was given in, as it would be typed. */
function toldPath(uri: string): string {
  const path = pathOf(uri);
  return path === null ? uri : relative(process.cwd(), path).split(sep).join('/');
}

/** @param isDisk the bytes of a file tell as much as its text, and need not be made one */
function cacheOf(files: Files, isDisk: boolean): ResultCache | null {
  const folder = cacheFolder();
  if (folder === null) return null;
  const { root, leadsOut } = files;
  const contents = new KnownContents(resultsFolder(folder), process.cwd());
  return new ResultCache(folder, programId(contents), {
    root,
    leadsOut,
    idOf: async (uri) => {
      if (isDisk) return contents.sumOf(uri);
      const read = await files.read(uri);
      return read.kind === 'text' ? sumOf(read.text) : null;
    },
    atEnd: () => contents.keep(),
  });
}

/** Of what judges, by its text: another build may find other things. */
const programId = (contents: KnownContents): string =>
  ['cli-check.cjs', 'cli-judge.cjs']
    .map((name) => contents.sumOf(uriOf(join(import.meta.dirname, name))))
    .join(' ');
