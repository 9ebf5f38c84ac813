import { createTwoFilesPatch, FILE_HEADERS_ONLY } from 'diff';
import { printable } from '../text/printable';
import { type FileKind, type Files, fileKind } from '../workspace/files';
import type { Output } from './check-selected';
import { leftOutLines, type Target } from './collect';
import { fixedText, withTexts } from './fixed-text';
import { pathsSelected } from './select';

/** Of what writes into files that are there. */
export interface Rewriting extends Output {
  /** Null where the file was written, else why not. */
  write(target: Target, text: string): string | null;
}

interface Fixing extends Rewriting {
  /** Fixes as well that change what the file means. */
  readonly unsafe: boolean;
  /** A difference is printed, and nothing is written. */
  readonly dryRun: boolean;
}

/** What one file says follows from others that were fixed: so often all are looked at again. */
const mostPasses = 6;

/** What rests on nothing comes first. */
const order: readonly (FileKind | null)[] = ['settings', 'chassis', 'readings'];

interface Outcome {
  readonly target: Target;
  readonly old: string;
  text: string;
  mended: number;
  unsafe: number;
}

/**
 * Takes the fixes of files: those that change no figure, verdict or signature, with `unsafe` the others too. A fix that is a choice stays for a
 * person. Exit code 0, or 2 where a file cannot be read, judged or written; the same where nothing is written: what is wrong is told by a check.
 */
export async function fix(files: Files, paths: readonly Target[], fixing: Fixing): Promise<number> {
  const { targets, complaints, leftOut } = await pathsSelected(files, paths);
  complaints.forEach(fixing.complain);
  leftOutLines(leftOut).forEach(fixing.complain);
  const ordered = order.flatMap((kind) => targets.filter(({ uri }) => fileKind(uri) === kind));
  const { outcomes, faults } = await outcomesOf(files, ordered, fixing.unsafe);
  let failed = complaints.length > 0;
  const complain = (line: string): void => {
    failed = true;
    fixing.complain(printable(`framewright: ${line}`));
  };
  faults.forEach(complain);
  const tell = fixing.dryRun ? fixing.complain : fixing.print;
  let mended = 0;
  let changed = 0;
  for (const outcome of outcomes) {
    const fault = await ended(files, outcome, fixing);
    if (fault !== null) complain(fault);
    else if (outcome.text !== outcome.old) {
      changed++;
      mended += outcome.mended;
    }
    const line = fault === null ? said(outcome, fixing.unsafe) : null;
    if (line !== null) tell(printable(line));
  }
  const would = fixing.dryRun ? 'would be fixed' : 'fixed';
  tell(`${mended} finding${mended === 1 ? '' : 's'} ${would} in ${changed} of ${counted(targets.length)}`);
  return failed ? 2 : 0;
}

const counted = (files: number): string => `${files} file${files === 1 ? '' : 's'}`;

/** Every file as it will stand; what is fixed already counts for those that follow. */
async function outcomesOf(files: Files, targets: readonly Target[], unsafe: boolean) {
  const texts = new Map<string, string>();
  const outcomes = new Map<string, Outcome>();
  const faults = new Map<string, string>();
  for (let pass = 0, isDone = false; pass < mostPasses && !isDone; pass++) {
    isDone = true;
    for (const target of targets) {
      const around = withTexts(files, texts);
      const read = await around.read(target.uri);
      const fixed = read.kind === 'text' ? await fixedText(around, target.uri, unsafe) : read.message;
      if (read.kind !== 'text' || typeof fixed === 'string') {
        faults.set(target.uri, `${target.path}: ${fixed}`);
        continue;
      }
      const { text, mended, unsafe: left } = fixed;
      const known = outcomes.get(target.uri) ?? { target, old: read.text, text, mended: 0, unsafe: 0 };
      outcomes.set(target.uri, { ...known, text, mended: known.mended + mended, unsafe: left });
      if (text === read.text) continue;
      texts.set(target.uri, text);
      isDone = false;
    }
  }
  return { outcomes: [...outcomes.values()], faults: [...faults.values()] };
}

/** Prints or writes what became of a file; answers null, or why that could not be. */
async function ended(files: Files, { target, old, text }: Outcome, fixing: Fixing): Promise<string | null> {
  if (text === old) return null;
  if (!fixing.dryRun) return rewritten(files, target, { old, text }, fixing);
  if (old.includes(noText)) return notText(target);
  // the text as it is: another program may take it
  const patch = createTwoFilesPatch(`a/${target.path}`, `b/${target.path}`, old, text, '', '', {
    headerOptions: FILE_HEADERS_ONLY,
  });
  patch.replace(/\n$/, '').split('\n').forEach(fixing.print);
  return null;
}

/** Stands for bytes that are no text. */
const noText = '\ufffd';
const notText = ({ path }: Target): string => `${path}: left as it is: it holds bytes that are no text`;

/** Writes a text in the place of the one that it was made from; answers null, or why it was not written. */
export async function rewritten(
  files: Files,
  target: Target,
  { old, text }: { readonly old: string; readonly text: string },
  { write }: Pick<Rewriting, 'write'>,
): Promise<string | null> {
  if (old.includes(noText)) return notText(target);
  const now = await files.read(target.uri);
  // by another name, a link, it was written before
  if (now.kind === 'text' && now.text === text) return null;
  if (now.kind !== 'text' || now.text !== old) return `${target.path}: left as it is: somebody changed it`;
  return write(target, text);
}

function said({ target, mended, unsafe }: Outcome, tookUnsafe: boolean): string | null {
  if (mended + unsafe === 0) return null;
  const left = tookUnsafe ? `${unsafe} left for a person` : `${unsafe} more with --unsafe`;
  return `${target.path}: ${[...(mended > 0 ? [`${mended} fixed`] : []), ...(unsafe > 0 ? [left] : [])].join(', ')}`;
}
