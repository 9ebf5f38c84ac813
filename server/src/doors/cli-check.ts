import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
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
import { type BaselineUse, isAnyBaseline } from '../node/baseline-place';
import { reportingOf } from '../node/cached-reports';
import { messageOf } from '../node/error-code';
import { nodeFiles, wayOnDisk } from '../node/files';
import type { Against } from '../node/git-changes';
import { cacheFolder, sumOf } from '../node/kept-file';
import { KnownContents } from '../node/known-contents';
import { ResultCache, resultsFolder } from '../node/result-cache';
import type { Making } from '../node/witness';
import type { Files } from '../workspace/files';
import { canonicalUri } from '../workspace/uris';
import { strays, toldPath } from './check-paths';
import type * as cliBaseline from './cli-baseline';
import type * as cliJudge from './cli-judge';

export { checkedAgain } from './check-watch';

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
  /** Told of each file that was looked at, and what its report was made from. */
  restsOn?(uris: readonly string[]): void;
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
  const reporting = telling(choice, reportingOf(making, choice.cache ? cacheOf(files, isDisk) : null));
  const asked = paths[0]?.uri ?? uriOf(`${process.cwd()}/`);
  const { targets } = selection;
  const { baseline: use = 'hold' } = choice;
  const check = (each: Reporting) => checkSelected(selection, options, output, each);
  if (use === 'hold' && !(await isAnyBaseline(files, asked, targets))) return check(reporting);
  return choice.baselines().againstBaseline({ files, asked, targets, use }, output, reporting, check);
}

const telling = ({ restsOn }: Choice, reporting: Reporting): Reporting =>
  restsOn === undefined
    ? reporting
    : async function* (targets, options) {
        let i = 0;
        for await (const report of reporting(targets, options)) {
          restsOn([targets[i++].uri, ...(report.madeFrom ?? [])]);
          yield report;
        }
      };

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

/** @param isDisk the bytes of a file tell as much as its text, and need not be made one */
function cacheOf(files: Files, isDisk: boolean): ResultCache | null {
  const folder = cacheFolder();
  if (folder === null) return null;
  const { root, leadsOut } = files;
  const contents = new KnownContents(resultsFolder(folder), process.cwd());
  const program = programId(contents);
  firstProgram ??= program;
  if (program !== firstProgram) return null;
  return new ResultCache(folder, program, {
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

/** The program that this run began with: one that is put in its place while the run goes on has not made these reports. */
let firstProgram: string | null = null;

/** Of what judges, by its text: another build may find other things. */
const programId = (contents: KnownContents): string =>
  ['cli-check.cjs', 'cli-judge.cjs']
    .map((name) => contents.sumOf(uriOf(join(import.meta.dirname, name))))
    .join(' ');
