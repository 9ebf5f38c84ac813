import type { Finding } from '../../findings/rule/finding';
import type { SignOffState } from '../../inspection/gate/sign-off';
import type { Inspection } from '../../inspection/job/inspect';
import type { Chassis } from '../../model/chassis';
import type { Job } from '../../model/job';
import type { Settings } from '../../model/read/settings';
import type { Unit } from '../../model/units';
import { linesOf } from '../../text/lines';
import { offsetsOf, type Place } from '../../text/tree';
import { type Markup, markup, quoted } from '../markup';

/** A job with all that is known of it: what the record is made from. */
export interface RecordedJob {
  readonly uri: string;
  readonly text: string;
  readonly job: Job;
  readonly inspection: Inspection;
  readonly findings: readonly Finding[];
  readonly settings: Settings;
}

/** What the sections of the record share. */
export interface RecordContext extends RecordedJob {
  readonly chassis: Chassis;
  readonly unit: Unit;
  readonly state: SignOffState;
  readonly lineOf: (place: Place) => number;
}

export const lineOfIn =
  (text: string) =>
  (place: Place): number =>
    linesOf(text).positionAt(offsetsOf(place).start).line + 1;

export const section = (id: string, title: string, ...content: readonly (Markup | null)[]): Markup =>
  markup`<section id="${id}"><h2>${title}</h2>${content}</section>
`;

/** Rows of a table of names and what they stand for; what is null is left out. */
export const facts = (rows: readonly (readonly [name: string, value: Markup | string | null])[]): Markup =>
  markup`<table class="facts"><tbody>${rows.map(([name, value]) =>
    value === null
      ? null
      : markup`<tr><th scope="row">${name}</th><td>${value}</td></tr>
`,
  )}</tbody></table>`;

export type Cell = Markup | string | number | null;

/** A table whose first column names the row; its head is repeated on every page. */
export const table = (name: string, head: readonly string[], rows: readonly (readonly Cell[])[]): Markup =>
  markup`<table class="${name}"><thead><tr>${head.map((each) => markup`<th scope="col">${each}</th>`)}</tr></thead><tbody>${rows.map(
    ([
      first,
      ...rest
    ]) => markup`<tr><th scope="row">${first}</th>${rest.map((cell) => markup`<td>${cell}</td>`)}</tr>
`,
  )}</tbody></table>`;

export const list = (items: readonly (Markup | string)[]): Markup =>
  markup`<ul>${items.map(
    (item) => markup`<li>${item}</li>
`,
  )}</ul>`;

/** What somebody wrote in a file, or a word of ours where nothing was. */
export const written = (text: string | null, otherwise = 'not stated'): Markup =>
  text === null || text.trim() === '' ? markup`${otherwise}` : quoted(text);

export const plural = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** A message of ours as it stands in a sentence; what it sets between backticks is to be typed. */
export const message = (text: string): Markup =>
  markup`<bdi>${text.split('`').map((piece, i) => (i % 2 === 0 ? markup`${piece}` : markup`<code>${piece}</code>`))}</bdi>`;

/** What somebody wrote over several lines, line by line. */
export const writtenLines = (text: string): Markup =>
  markup`${text
    .trimEnd()
    .split(/\r\n|\r|\n/)
    .map((line, i) => markup`${i === 0 ? null : markup`<br>`}${quoted(line)}`)}`;

/** A date and time as people write it: the T between them is for machines. */
export function timeMarkup(at: string): Markup {
  const shown = at.replace(/^(\d{4}-\d\d-\d\d)T(?=\d)/, '$1 ');
  return /^[\d :-]{1,19}$/.test(shown) ? markup`<time>${shown}</time>` : written(shown, 'no time stated');
}
