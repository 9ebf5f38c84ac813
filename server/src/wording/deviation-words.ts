import type { JudgedPoint } from '../inspection/alignment/points';
import type { JudgedSpan } from '../inspection/alignment/spans';
import { type Axis, axes, type Limits } from '../model/chassis';
import type { Side } from '../model/names';
import { lengthFigure, lengthText, type Unit } from '../model/units';
import { axisNames, certaintyText, directionWord, limitPhrase, movePhrase } from './wording';

const showsAsNothing = (mm: number, unit: Unit): boolean => Number(lengthFigure(Math.abs(mm), unit)) === 0;

/** How far off, for a column of a table: `14.2 right`; `0` where the figure shows as nothing. */
export const offFigure = (axis: Axis, mm: number, unit: Unit): string =>
  showsAsNothing(mm, unit) ? '0' : `${lengthFigure(Math.abs(mm), unit)} ${directionWord(axis, mm)}`;

/** `±3.0`; `2.0 right, 4.0 left` where the two sides differ. */
export const limitFigure = (axis: Axis, [low, high]: Limits, unit: Unit): string =>
  -low === high
    ? `±${lengthFigure(high, unit)}`
    : `${lengthFigure(-low, unit)} ${directionWord(axis, -1)}, ${lengthFigure(high, unit)} ${directionWord(axis, 1)}`;

const offWords = (axis: Axis, mm: number, side: Side | null, unit: Unit): string =>
  showsAsNothing(mm, unit) ? 'in place' : movePhrase(axis, mm, side, unit);

/** A judged point in a sentence, what a drawing says of its mark: `rail-tip-upper.L: outside. Length 9.1 mm rearward, limit ±2.0, …`. */
export function deviationSentence(judged: JudgedPoint, unit: Unit): string {
  const { point } = judged;
  const told = axes.map((k) => {
    const [mm, u] = [judged.deviation[k], judged.uncertainty[k]];
    if (mm === null || u === null) return `${axisNames[k]} cannot be judged`;
    const limit = limitPhrase(k, point.limits[k], point.side, unit);
    return `${axisNames[k]} ${offWords(k, mm, point.side, unit)}, ${limit}, certain to ${certaintyText(u, unit)}`;
  });
  return `${judged.id}: ${judged.verdict}${judged.inBase ? ', control point of the base' : ''}; ${told.join('; ')}`;
}

/** `12.1 short`; `0` where the figure shows as nothing. */
export const deviationOfSpan = ({ deviationMm }: JudgedSpan, unit: Unit): string =>
  showsAsNothing(deviationMm, unit)
    ? '0'
    : `${lengthFigure(Math.abs(deviationMm), unit)} ${deviationMm > 0 ? 'long' : 'short'}`;

/** `±3.0`; `2.0 short, 4.0 long` where the two sides differ. */
export const limitsOfSpan = ({ limits: [low, high] }: JudgedSpan, unit: Unit): string =>
  -low === high
    ? `±${lengthFigure(high, unit)}`
    : `${lengthFigure(-low, unit)} short, ${lengthFigure(high, unit)} long`;

/** A judged distance in a sentence: `sill.L to latch: outside; 1399.7 mm read, reference 1411.8; 12.1 short, limit ±3.0, …`. */
export function spanSentence(span: JudgedSpan, unit: Unit): string {
  const read = `${lengthText(span.measuredMm, unit)} read, reference ${lengthFigure(span.referenceMm, unit)}`;
  const off = `${deviationOfSpan(span, unit)}, limit ${limitsOfSpan(span, unit)}, certain to ${certaintyText(span.uncertaintyMm, unit)}`;
  return `${span.from} to ${span.to}: ${span.verdict}; ${read}; off by ${off}`;
}
