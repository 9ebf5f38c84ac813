import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { basename, dirname, join, relative, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { KnownInFile } from '../commands/baseline';
import { type Bounds, checkSelected, type Output, type Printing } from '../commands/check-selected';
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
import { type BaselineUse, baselineFor, baselineWritten, heldAgainst } from '../node/baseline-file';
import { reportingOf } from '../node/cached-reports';
import { messageOf } from '../node/error-code';
import { nodeFiles, pathOf } from '../node/files';
import { type Against, changesIn } from '../node/git-changes';
import { realPath } from '../node/list';
import { cacheFolder, ResultCache } from '../node/result-cache';
import { stagedFiles } from '../node/staged-files';
import { type Making, sumOf } from '../node/witness';
import { printable } from '../text/printable';
import type { Files } from '../workspace/files';
import { canonicalUri } from '../workspace/uris';
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
  if (choice.against !== null && selection.targets.length + selection.leftOut.length === 0)
    output.complain('framewright: no file of ours changed');
  const making: Making = (targets, each) => {
    const { madeFromDisk, madeHere } = choice.judge();
    return (isDisk ? madeFromDisk(files) : madeHere(files))(targets, each);
  };
  const reporting = reportingOf(making, choice.cache ? cacheOf(files, isDisk) : null);
  const baseline = await baselineFor(files, paths[0]?.uri ?? uriOf(`${process.cwd()}/`));
  if (typeof baseline === 'string') {
    output.complain(printable(`framewright: ${baseline}`));
    return 2;
  }
  const { baseline: use = 'hold' } = choice;
  const met = new Map<string, KnownInFile>();
  const held = heldAgainst(reporting, baseline, use, met);
  const code = await checkSelected(selection, options, output, held);
  if (use === 'hold') return code;
  if (code === 2) {
    output.complain('framewright: the baseline was not written: not all files could be judged');
    return 2;
  }
  const { said, isWritten } = await baselineWritten(files, baseline, use, met);
  output.complain(printable(`framewright: ${said}`));
  return isWritten ? code : 2;
}

async function lookOf(paths: readonly Target[], choice: Choice): Promise<Look> {
  const { against, dependents, incoming } = choice;
  if (against !== null) {
    const { root, paths: changed } = await changesIn(process.cwd(), against);
    const isDisk = against.kind !== 'staged';
    const there = isDisk ? onDisk(nodeFiles()) : await stagedFiles(root);
    const around = { files: there, folder: uriOf(`${root}/`), pathOf: toldPath, placeOf: there.placeOf };
    return { selection: await changesSelected(changed.map(uriOf), paths, around), files: there, isDisk };
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
  files: Files & Pick<Surroundings, 'placeOf'>,
): Promise<Selection> {
  let all = selection;
  for (const path of paths) {
    const folder = await folderAround(files, path.uri);
    all = await withDependents(all, [path], { files, folder, pathOf: toldPath, placeOf: files.placeOf });
  }
  return all;
}

/** A text in place of what a file holds. */
const withText = (files: Files, uri: string, text: string): Files => ({
  ...files,
  read: async (each) =>
    canonicalUri(each) === canonicalUri(uri) ? { kind: 'text', text } : files.read(each),
});

const onDisk = (files: Files): Files & Pick<Surroundings, 'placeOf'> => ({
  ...files,
  placeOf: async (uri) => {
    const path = pathOf(uri);
    if (path === null) return canonicalUri(uri);
    const folder = realPath(dirname(path));
    // one that is gone may be named still
    return canonicalUri(uriOf(realPath(path) ?? (folder === null ? path : join(folder, basename(path)))));
  },
});

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
  return new ResultCache(folder, programId(), {
    root,
    leadsOut,
    idOf: async (uri) => {
      if (isDisk) return sumOnDisk(uri);
      const read = await files.read(uri);
      return read.kind === 'text' ? sumOf(read.text) : null;
    },
  });
}

function sumOnDisk(uri: string): string | null {
  const path = pathOf(uri);
  try {
    return path === null ? null : sumOf(readFileSync(path));
  } catch {
    return null;
  }
}

/** Of what judges, by its text: another build may find other things. */
const programId = (): string =>
  ['cli-check.cjs', 'cli-judge.cjs']
    .reduce((hash, name) => hash.update(readFileSync(join(import.meta.dirname, name))), createHash('sha256'))
    .digest('base64url');
