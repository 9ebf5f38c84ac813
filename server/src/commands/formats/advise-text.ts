import type { MeasuringAdvice } from '../../inspection/advice/answer';
import type { Unit } from '../../model/units';
import {
  coarseText,
  decidedText,
  insteadText,
  instrumentText,
  leftPhrase,
  leftText,
  noAdviceText,
  noFrameText,
  readingsPhrase,
} from '../../wording/advice-words';
import type { ChassisAnswer, JobAnswer } from './advise-json';
import type { PartAnswer } from './part-answer';

/** What `advise` prints for people. Uncertainties at 95 %. */

export function jobAdviceLines({ path, unit, stage, advice }: JobAnswer): string[] {
  if (typeof advice === 'string') return [`${path}: no advice: ${noAdviceText[advice]}.`];
  const where = stage === null ? 'a new measure' : `“${stage.name}”`;
  const head = `${path}: ${where}, ${instrumentText(advice.uncertaintyMm, unit)} (± at 95 %, by the alignment alone)`;
  return [head, ...[...settledFirst(stage?.provisional ?? false), ...stepLines(advice, unit)].map(indented)];
}

const indented = (line: string): string => `  ${line}`;

const settledFirst = (isProvisional: boolean): string[] =>
  isProvisional ? ['This measure is provisional: `framewright check` says what to settle first.'] : [];

function stepLines(advice: MeasuringAdvice, unit: Unit): string[] {
  const { now, steps } = advice;
  const start = now === null ? [] : [`now ${leftPhrase(now, unit)}`];
  let before = now;
  const lines = steps.map((step) => {
    const fall =
      step.left === null
        ? 'a frame needs more'
        : before === null
          ? leftPhrase(step.left, unit)
          : `${leftText(before, unit)} → ${leftText(step.left, unit)}`;
    before = step.left;
    return `read ${readingsPhrase([step])}: ${fall}${step.checks ? ', and the control points check each other' : ''}`;
  });
  return [...start, ...lines, ...endLines(advice, unit)];
}

function endLines(advice: MeasuringAdvice, unit: Unit): string[] {
  const { steps, reached, coarse, uncertaintyMm } = advice;
  if (coarse !== null) return [coarseText(coarse, uncertaintyMm, unit)];
  const isNone = steps.length === 0;
  const instrument = instrumentText(uncertaintyMm, unit);
  if (!reached)
    return [
      `${isNone ? 'More' : 'More than that'} cannot be reached with ${instrument}: ${insteadText(advice)}.`,
    ];
  return [`${decidedText(`${isNone ? 'Every' : 'Then every'} point of the scope`, advice)}.`];
}

export function chassisAdviceLines({ path, unit, uncertaintyMm, parts }: ChassisAnswer): string[] {
  if (parts.length === 0) return [`${path}: no advice: ${noFrameText}.`];
  const head = `${path}: all control points read, ${instrumentText(uncertaintyMm, unit)} (± at 95 %, by the alignment alone)`;
  const width = Math.max(...parts.map(({ name }) => name.length)) + 2;
  return [head, ...parts.map((part) => `  ${part.name.padEnd(width)}${partText(part, uncertaintyMm, unit)}`)];
}

function partText(part: PartAnswer, uncertaintyMm: number, unit: Unit): string {
  const { isDecidable, worst, coarse, mostUncertaintyMm, marks } = part;
  const most =
    mostUncertaintyMm === null ? 'with no instrument' : `up to ${instrumentText(mostUncertaintyMm, unit)}`;
  if (isDecidable) return `can be decided, ${most}`;
  const why =
    coarse !== null
      ? coarseText(coarse, uncertaintyMm, unit)
      : worst === null
        ? 'nothing holds it without itself.'
        : `${leftPhrase(worst, unit)}.`;
  const mark = marks.length === 0 ? '' : ` Marking ${readingsPhrase(marks)}, as control points would do.`;
  return `cannot be decided (${most}): ${why}${mark}`;
}
