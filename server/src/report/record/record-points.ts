import type { JudgedPoint } from '../../inspection/alignment/points';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { type Axis, axes, type Point } from '../../model/chassis';
import { type Unit, unitWord } from '../../model/units';
import { limitFigure } from '../../wording/deviation-words';
import { axisNames } from '../../wording/wording';
import { symbolSvg } from '../drawing/drawing-key';
import { type Markup, markup, quoted, shortened } from '../markup';
import { deviationMarkup, limitsMarkup, verdictMark } from './record-figures';
import { type RecordContext, section } from './record-input';
import { spansTable } from './record-spans';

/** How many stages stand side by side on a page. */
const stagesBeside = 3;

/** Every point's deviation at each stage, a column for each under the technician's name of it. */
export function pointsSection(context: RecordContext): Markup {
  const { inspection, unit } = context;
  const stages = inspection.stages.map((stage, i) => ({ stage, number: i + 1 }));
  return section(
    'points',
    'Every point at each stage',
    markup`<p>How far off its reference each point was, in ${unitWord[unit]}, with ± at 95 %. Control points of the base are judged by the others. A reading under load is a peak: it shows how far the metal was pulled, and does not count for the sign-off.</p>`,
    ...(stages.length === 1
      ? [stageTable(inspection, stages[0], unit)]
      : groupsOf(stages).map((group) => groupTable(inspection, group, unit))),
    spansTable(context),
  );
}

interface Numbered {
  readonly stage: Stage;
  readonly number: number;
}

/** Evenly filled tables: four stages are two and two, seven are two, two and three. */
export function groupsOf<T>(stages: readonly T[]): T[][] {
  const count = Math.ceil(stages.length / stagesBeside);
  const start = (i: number) => Math.floor((i * stages.length) / count);
  return Array.from({ length: count }, (_, i) => stages.slice(start(i), start(i + 1)));
}

interface Found {
  readonly judged: JudgedPoint | null;
  /** A word in place of numbers. */
  readonly word: 'unreachable' | 'as-before' | null;
  readonly peak: boolean;
}

/** By point id, what a stage says of it; the points of the chassis that any of the stages names. */
function foundIn({ chassis }: Inspection, group: readonly Numbered[]) {
  const stages = group.map(({ stage }) => ({
    judged: new Map(stage.points.map((each) => [each.id, each])),
    words: new Map([
      ...stage.unreachable.map(({ id }) => [id, 'unreachable'] as const),
      ...stage.asBefore.map(({ id }) => [id, 'as-before'] as const),
    ]),
    peak: stage.underTension,
  }));
  return [...chassis.points.values()].flatMap((point) => {
    const found = stages.map(
      ({ judged, words, peak }): Found => ({
        judged: judged.get(point.id) ?? null,
        word: words.get(point.id) ?? null,
        peak,
      }),
    );
    return found.every((each) => each.judged === null && each.word === null) ? [] : [{ point, found }];
  });
}

const stageHead = ({ stage, number }: Numbered): Markup =>
  markup`${number} ${quoted(shortened(stage.name, 60))}${stage.underTension ? markup` <span class="aside">(under load)</span>` : null}${stage.provisional ? markup` <span class="aside">(provisional)</span>` : null}`;

const idCell = ({ id }: Point): Markup => quoted(shortened(id, 80));

/** One stage by itself: a row for each point. */
function stageTable(inspection: Inspection, numbered: Numbered, unit: Unit): Markup | null {
  const rows = foundIn(inspection, [numbered]);
  if (rows.length === 0) return null;
  return markup`<table class="points one-stage"><colgroup><col class="name"><col class="axis"></colgroup><colgroup><col class="verdict"><col><col><col></colgroup><thead><tr><td colspan="2"></td><th scope="colgroup" colspan="4">${stageHead(numbered)}</th></tr><tr><th scope="col">Point</th><th scope="col">Limit</th><th scope="col">Verdict</th>${axes.map((k) => markup`<th scope="col">${capital(axisNames[k])}</th>`)}</tr></thead><tbody>
${rows.map(({ point, found: [{ judged, word, peak }] }) => {
  const cells =
    judged === null
      ? markup`<td colspan="4" class="none">${wordText(word)}</td>`
      : markup`<td class="${judged.verdict}">${symbolSvg(judged.verdict)} ${verdictWords(judged, peak).join(', ')}</td>${axes.map((k) => markup`<td>${deviationMarkup(judged, k, unit)}</td>`)}`;
  return markup`<tr data-point="${point.id}"><th scope="row">${idCell(point)}</th><td>${limitsMarkup(point, unit)}</td>${cells}</tr>
`;
})}</tbody></table>`;
}

const capital = (word: string): string => word[0].toUpperCase() + word.slice(1);

/** Several stages side by side: three rows for each point, that stay together. */
function groupTable(inspection: Inspection, group: readonly Numbered[], unit: Unit): Markup | null {
  const rows = foundIn(inspection, group);
  if (rows.length === 0) return null;
  const heads = group.map((each) => markup`<th scope="colgroup" colspan="2">${stageHead(each)}</th>`);
  return markup`<table class="points stages-${group.length}"><colgroup><col class="name"><col class="axis"></colgroup>${group.map(() => markup`<colgroup><col class="verdict"><col></colgroup>`)}<thead><tr><th scope="col">Point</th><th scope="col">Limit</th>${heads}</tr></thead>
${rows.map(({ point, found }) => pointRows(point, found, unit))}</table>`;
}

function pointRows(point: Point, found: readonly Found[], unit: Unit): Markup {
  const row = (k: Axis) =>
    markup`<tr>${k === 0 ? markup`<th scope="rowgroup" rowspan="3">${idCell(point)}</th>` : null}<td class="axis">${axisNames[k]} ${limitFigure(k, point.limits[k], unit)}</td>${found.map((each) => cells(each, k, unit))}</tr>
`;
  return markup`<tbody data-point="${point.id}">${axes.map(row)}</tbody>`;
}

function cells({ judged, word, peak }: Found, k: Axis, unit: Unit): Markup | null {
  if (judged === null)
    return k !== 0 ? null : markup`<td colspan="2" rowspan="3" class="none">${wordText(word)}</td>`;
  const [verdict, ...more] = verdictWords(judged, peak);
  const first =
    k !== 0
      ? null
      : markup`<td rowspan="3" class="${judged.verdict}">${symbolSvg(judged.verdict)}<br>${verdict}${more.length === 0 ? null : markup`<br>${more.join(', ')}`}</td>`;
  return markup`${first}<td>${deviationMarkup(judged, k, unit)}</td>`;
}

const wordText = (word: Found['word']): Markup | string =>
  word === 'unreachable'
    ? verdictMark('unreachable', 'out of reach')
    : word === 'as-before'
      ? 'as before'
      : 'not read';

const verdictWords = ({ verdict, inBase, witness }: JudgedPoint, peak: boolean): string[] => [
  verdict,
  ...(inBase ? ['base'] : []),
  ...(witness === undefined ? [] : ['helps to align']),
  ...(peak ? ['peak'] : []),
];
