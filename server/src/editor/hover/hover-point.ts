import { type JudgedPoint, mapAxes } from '../../inspection/alignment/points';
import type { JudgedSpan } from '../../inspection/alignment/spans';
import { beyond, coverage95 } from '../../inspection/alignment/verdict';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { type Axis, axes, type Chassis, type Point } from '../../model/chassis';
import { countsAsUsual, signed, signedBand } from '../../model/sheet-axes';
import { figure, lengthFigure, lengthText, type Unit, unitWord } from '../../model/units';
import {
  axisNames,
  certaintyText,
  directionPhrase,
  directionWord,
  limitsText,
  movesPhrase,
} from '../../wording/wording';
import { escaped, table } from './markdown';

/**
 * A reading: where the point belongs, where it is, how far off, how certain, what it was before.
 * @param told what findings say there
 */
export function pointHover(
  inspection: Inspection,
  stage: Stage,
  judged: JudgedPoint,
  told: readonly string[] = [],
): string {
  const { unit } = inspection.job;
  const { point } = judged;
  return [
    `**${judged.id}** is **${judged.verdict}**${place(point)}`,
    ...notes(stage, judged, told),
    '',
    table(
      [
        '',
        `reference (${unitWord[unit]})`,
        'measured',
        'off by',
        'limit',
        'certain to (95 %)',
        'chance within',
      ],
      axes.map((k) => axisRow(judged, k, unit)),
    ),
    ...moveLine(stage, judged, unit, told),
    ...(judged.inBase
      ? ['', 'A control point of the base. It is judged by the other control points alone.']
      : []),
    ...(judged.witness === undefined ? [] : ['', witnessText(judged.witness)]),
    ...doubtLine(judged, unit),
    ...history(inspection, judged.id),
  ].join('\n');
}

const witnessText = (believed: number): string =>
  `Nobody has it in question, ${
    believed > 0
      ? `so it helps to align the car and is believed to ${figure(100 * believed, 0)} %`
      : 'but it stands off, and so does not help to align the car'
  }. It is judged by all but its own group.`;

const place = (point: Point): string => {
  const part = point.part === null ? '' : `, on ${point.part}`;
  const fixing = point.fixing === null ? '' : `, ${point.fixing}`;
  return `${part}${fixing}${point.base ? ', control point' : ''}`;
};

function notes(stage: Stage, judged: JudgedPoint, told: readonly string[]): string[] {
  const lines: string[] = [];
  if (stage.provisional)
    lines.push('', '*Provisional: the base of this stage is not settled, so every figure may change.*');
  if (stage.underTension)
    lines.push('', '*Read under tension: a peak. What counts is the reading after release.*');
  if (judged.contradictory && !told.some((each) => /repeats contradict each other/i.test(each)))
    lines.push('', '*Its repeats contradict each other: it is undecided at best, whatever their mean.*');
  if (judged.measured === null) lines.push('', '*Not judged: this stage has no alignment.*');
  return lines;
}

function axisRow(judged: JudgedPoint, k: Axis, unit: Unit): string[] {
  const { point } = judged;
  const deviation = judged.deviation[k];
  const u = judged.uncertainty[k];
  const chance = judged.conformity[k];
  const measured = judged.measured?.[k] ?? null;
  const outside = deviation !== null && beyond(deviation, point.limits[k]);
  const off = deviation === null ? 'cannot be judged' : offText(k, deviation, point, unit);
  return [
    axisLabel(k, point),
    shownPosition(k, point.reference[k], point, unit),
    measured === null ? '' : shownPosition(k, measured, point, unit),
    outside ? `**${off}**` : off,
    shownLimits(k, point, unit),
    u === null ? '' : certaintyText(u, unit),
    chance === null ? '' : chanceText(chance),
  ];
}

const offText = (k: Axis, deviation: number, point: Point, unit: Unit): string => {
  const size = lengthFigure(Math.abs(deviation), unit);
  return Number(size) === 0 ? '0' : `${size} ${directionPhrase(k, deviation, point.side)}`;
};

/** Positions in the signs of the sheet: without `axes`, width is outboard on a sided point. */
export const shownPosition = (k: Axis, value: number, { sheetSigns }: Point, unit: Unit): string =>
  lengthFigure(signed(sheetSigns[k], value), unit);

const shownLimits = (k: Axis, point: Point, unit: Unit): string =>
  limitsText(signedBand(point.sheetSigns[k], point.limits[k]), unit);

/** `length`; `length (rearward)` where the sheet counts otherwise than usual. */
function axisLabel(k: Axis, { side, sheetSigns }: Point): string {
  const sheetSign = sheetSigns[k];
  return countsAsUsual({ along: k, side, sheetSign })
    ? axisNames[k]
    : `${axisNames[k]} (${directionWord(k, sheetSign)})`;
}

/** Never 0 % or 100 %: a chance is not a certainty. */
const chanceText = (chance: number): string =>
  chance > 0.995 ? '> 99 %' : chance < 0.005 ? '< 1 %' : `${figure(chance * 100, 0)} %`;

/** Nothing is to be moved by a peak, nor by an alignment that may be the wrong one. */
function moveLine(stage: Stage, judged: JudgedPoint, unit: Unit, told: readonly string[] = []): string[] {
  if (judged.verdict !== 'outside' || stage.underTension || stage.provisional) return [];
  // what is not certain to be off needs no moving
  const move = mapAxes((k) => {
    const [d, u] = [judged.deviation[k], judged.uncertainty[k]];
    return d === null || u === null || Math.abs(d) < coverage95 * u ? 0 : -d;
  });
  const moves = movesPhrase(move, judged.point.side, unit);
  return told.some((each) => each.includes(`Move it ${moves}.`)) ? [] : ['', `To its place: ${moves}.`];
}

function doubtLine(judged: JudgedPoint, unit: Unit): string[] {
  const shares = judged.alignmentVariance.filter((each) => each !== null).map(Math.sqrt);
  const reference =
    judged.point.uncertaintyMm > 0
      ? ` The reference itself is known to ±${lengthText(coverage95 * judged.point.uncertaintyMm, unit)}.`
      : '';
  if (shares.length === 0) return reference ? ['', reference.trim()] : [];
  return [
    '',
    `Of this uncertainty, ±${lengthText(coverage95 * Math.max(...shares), unit)} at most is the alignment's.${reference}`,
  ];
}

/** The point through the stages of the job. */
function history(inspection: Inspection, id: string): string[] {
  const { unit } = inspection.job;
  const rows = inspection.stages.flatMap((stage) => {
    const judged = stage.points.find((each) => each.id === id);
    if (!judged)
      return [...stage.unreachable, ...stage.asBefore]
        .filter((each) => each.id === id)
        .map(({ unreachable }) => [
          escaped(stage.name),
          unreachable ? 'unreachable' : 'as before',
          '',
          '',
          '',
        ]);
    const cells = axes.map((k) => {
      const deviation = judged.deviation[k];
      return deviation === null ? '?' : offText(k, deviation, judged.point, unit);
    });
    return [[escaped(stage.name) + (stage.underTension ? ' (peak)' : ''), ...cells, judged.verdict]];
  });
  if (rows.length < 2) return [];
  return ['', '**Through the stages**', '', table(['stage', ...axes.map((k) => axisNames[k]), ''], rows)];
}

/** A point as the chassis has it, and where it stands in this job. */
export function referenceHover(point: Point, chassis: Chassis, inspection: Inspection | null): string {
  const unit = inspection?.job.unit ?? chassis.unit;
  const source = point.source;
  const known =
    point.uncertaintyMm > 0 ? `, known to ±${lengthText(coverage95 * point.uncertaintyMm, unit)} (95 %)` : '';
  const newest = inspection?.stages
    .filter((stage) => !stage.underTension)
    .findLast((stage) => stage.points.some((each) => each.id === point.id));
  const judged = newest?.points.find((each) => each.id === point.id);
  return [
    `**${point.id}**${place(point)}`,
    '',
    table(
      ['', `reference (${unitWord[unit]})`, 'limit'],
      axes.map((k) => [
        axisLabel(k, point),
        shownPosition(k, point.reference[k], point, unit),
        shownLimits(k, point, unit),
      ]),
    ),
    ...(source
      ? ['', `Source: ${source.kind}${source.reference ? `, ${escaped(source.reference)}` : ''}${known}.`]
      : []),
    ...(judged && newest
      ? [
          '',
          `Newest reading ("${escaped(newest.name)}"): **${judged.verdict}**.`,
          ...moveLine(newest, judged, unit),
        ]
      : []),
    ...(inspection ? history(inspection, point.id) : []),
  ].join('\n');
}

export function spanHover(inspection: Inspection, span: JudgedSpan): string {
  const { unit } = inspection.job;
  const off =
    Number(lengthFigure(Math.abs(span.deviationMm), unit)) === 0
      ? '0'
      : `${lengthFigure(Math.abs(span.deviationMm), unit)} too ${span.deviationMm > 0 ? 'long' : 'short'}`;
  return [
    `**${span.from} to ${span.to}** is **${span.verdict}**`,
    ...(span.contradictory
      ? ['', '*Its repeats contradict each other: it is undecided at best, whatever their mean.*']
      : []),
    '',
    table(
      [`reference (${unitWord[unit]})`, 'measured', 'off by', 'limit', 'certain to (95 %)', 'chance within'],
      [
        [
          lengthFigure(span.referenceMm, unit),
          lengthFigure(span.measuredMm, unit),
          off,
          limitsText(span.limits, unit),
          certaintyText(span.uncertaintyMm, unit),
          chanceText(span.conformity),
        ],
      ],
    ),
    '',
    span.listed
      ? 'The chassis lists this distance.'
      : 'The chassis does not list this distance: it is computed from the two positions.',
  ].join('\n');
}
