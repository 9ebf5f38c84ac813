import { readFileSync } from 'node:fs';
import { filledIn } from '../../../../client/src/filled-in';
import { analysed } from '../../findings/testing/analysed';
import { codeActionOf } from '../../protocol/convert';
import { applyEdits } from '../../text/edits';
import { linesOf } from '../../text/lines';
import type { Analysis } from '../../workspace/workspace';
import { actionsAt } from '../actions/actions-at';
import type { Action, Moment } from '../actions/code-action';
import { hoverAt } from '../hover/hover';

/** For the tests of the editor's features: a file with `$0` where the cursor stands, and what is said or offered there. */

export type Texts = Record<string, string>;

const cursor = '$0';

/** A file without its cursor, analysed, and where the cursor stood. */
export async function analysisAt(
  files: Texts,
  name: string,
): Promise<{ analysis: Analysis; offset: number }> {
  const offset = files[name].indexOf(cursor);
  if (offset < 0) throw new Error(`no ${cursor} in ${name}`);
  const text = files[name].replace(cursor, '');
  return { analysis: await analysed({ ...files, [name]: text }, name), offset };
}

/** A text with the cursor set before a piece of it, which has to be there; `nth` counts from 0. */
export function before(text: string, piece: string, nth = 0): string {
  let start = -1;
  for (let i = 0; i <= nth; i++) {
    start = text.indexOf(piece, start + 1);
    if (start < 0) throw new Error(`not ${nth + 1} times in the text: ${piece}`);
  }
  return text.slice(0, start) + cursor + text.slice(start);
}

/** What is shown at the cursor, and the text that it is about; null where nothing is shown. */
export async function shownAt(
  files: Texts,
  name: string,
): Promise<{ markdown: string; about: string } | null> {
  const { analysis, offset } = await analysisAt(files, name);
  const hover = hoverAt(analysis, offset);
  return (
    hover && { markdown: hover.markdown, about: analysis.text.slice(hover.range.start, hover.range.end) }
  );
}

/** The cells of a table's row that begins with a word, without padding and bold. */
export const cellsOf = (markdown: string, first: string): string[] => {
  const line = markdown.split('\n').find((each) => each.startsWith(`| ${first}&nbsp;`));
  if (line === undefined) throw new Error(`no row ${first} in\n${markdown}`);
  return line
    .slice(2, -2)
    .split(' | ')
    .map((cell) => cell.replaceAll('&nbsp;', '').replaceAll('**', ''));
};

export const today = '2026-03-05';

/** For an editor that can show nothing of its own. */
export const moment: Moment = { today, shows: new Set() };

/** What is offered at the cursor, by title, and what the file would then be. */
export async function offeredAt(files: Texts, name: string): Promise<Map<string, Action>> {
  const { analysis, offset } = await analysisAt(files, name);
  const offered = actionsAt(analysis, { start: offset, end: offset }, moment);
  return new Map(offered.map((action) => [action.title, action]));
}

/** What the editor's side is sent with an action that asks. */
interface Question {
  readonly mark: string;
  readonly edits: NonNullable<NonNullable<ReturnType<typeof codeActionOf>['edit']>['changes']>[string];
}

/**
 * A text after an action, as the protocol sends it and with what the editor's side makes of it.
 * @param answer null: an editor that cannot ask
 */
export function after(text: string, action: Action, answer: string | null = 'rk'): string {
  const lines = linesOf(text);
  const abilities = { asks: answer !== null, resolvesEdits: false };
  const { command, edit } = codeActionOf(action, 'file:///w', lines, [], abilities);
  const question: Question | undefined = command?.arguments?.[0];
  const edits = question
    ? question.edits.map(({ range, newText }) => ({
        range,
        newText: filledIn(newText, question.mark, answer!),
      }))
    : edit!.changes!['file:///w'];
  return applyEdits(
    text,
    edits.map(({ range: { start, end }, newText }) => ({
      start: lines.offsetAt(start.line, start.character),
      end: lines.offsetAt(end.line, end.character),
      text: newText,
    })),
  );
}

/** The file as it is after the action of a title is chosen at the cursor. */
export async function chosenAt(
  files: Texts,
  name: string,
  title: string,
  answer?: string | null,
): Promise<string> {
  const offered = await offeredAt(files, name);
  const action = offered.get(title);
  if (!action) throw new Error(`not offered: ${title}; only ${[...offered.keys()].join(', ')}`);
  return after(files[name].replace(cursor, ''), action, answer);
}

/** The lines that one text has more than another, both without what they share; what was taken away in `gone`. */
export function difference(old: string, now: string): { added: string[]; gone: string[] } {
  const [a, b] = [old.split(/(?<=\n)/), now.split(/(?<=\n)/)];
  let start = 0;
  while (start < Math.min(a.length, b.length) && a[start] === b[start]) start++;
  let end = 0;
  while (end < Math.min(a.length, b.length) - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end++;
  return { gone: a.slice(start, a.length - end), added: b.slice(start, b.length - end) };
}

const sample = (path: string): string =>
  readFileSync(new URL(`../../../../samples/${path}`, import.meta.url), 'utf8');

export const sampleSpecs: Texts = Object.fromEntries(
  ['specs/marten-hatch.chassis.yaml', 'specs/teal-estate.chassis.yaml'].map((path) => [path, sample(path)]),
);

export const sampleJobs = [
  'w-1174-finished',
  'w-1187-as-received',
  'w-1192-twisted-rail',
  'w-1201-side-impact',
  'w-1205-moved-control-point',
  'w-1210-typing-mistakes',
  'w-1211-measuring-mistakes',
  'w-1212-procedure-mistakes',
  'w-1213-tram-only',
  'w-1214-side-moved',
  'w-1215-few-control-points',
  'w-1216-undeclared-rear',
].map((name) => `jobs/${name}.readings.yaml`);

/** A sample job with the body data that it names. */
export const sampleFiles = (path: string): Texts => ({ ...sampleSpecs, [path]: sample(path) });
