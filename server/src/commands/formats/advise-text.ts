import type { AdvisedStep, MeasuringAdvice } from '../../inspection/advice/answer';
import type { Unit } from '../../model/units';
import {
  coarseText,
  decidedText,
  fallText,
  insteadText,
  instrumentText,
  leftPhrase,
  leftText,
  noAdviceText,
  noFrameText,
  readingsPhrase,
  upToText,
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
  const { now } = advice;
  const start = now === null ? [] : [`now ${leftPhrase(now, unit)}`];
  let before = now;
  const groups = joined(advice, unit);
  const lines = groups.map((group) => {
    const { left, checks } = group[group.length - 1];
    const fall =
      left === null
        ? 'a frame needs more'
        : before === null
          ? leftPhrase(left, unit)
          : fallText(before, left, unit);
    before = left;
    return `read ${readingsPhrase(group)}: ${fall}${checks ? ', and the control points check each other' : ''}`;
  });
  return [...start, ...lines, ...endLines(advice, groups.length === 0, unit)];
}

/** A step that by itself changes no figure stands with the next that does; at the end, where all is not reached by it, it is left out. */
function joined({ now, steps, reached }: MeasuringAdvice, unit: Unit): AdvisedStep[][] {
  const groups: AdvisedStep[][] = [];
  let waiting: AdvisedStep[] = [];
  let before = now;
  for (const step of steps) {
    waiting.push(step);
    const isSame =
      before !== null && step.left !== null && leftText(before, unit) === leftText(step.left, unit);
    if (isSame && !step.checks) continue;
    groups.push(waiting);
    waiting = [];
    before = step.left;
  }
  return reached && waiting.length > 0 ? [...groups, waiting] : groups;
}

function endLines(advice: MeasuringAdvice, isNone: boolean, unit: Unit): string[] {
  const { reached, coarse, uncertaintyMm } = advice;
  if (coarse !== null) return [coarseText(coarse, uncertaintyMm, unit)];
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
    mostUncertaintyMm === null ? 'with no instrument' : `with ${upToText(mostUncertaintyMm, unit)}`;
  if (isDecidable) return `can be decided ${most}`;
  const why =
    coarse !== null
      ? coarseText(coarse, uncertaintyMm, unit)
      : worst === null
        ? 'nothing holds it without itself.'
        : `${leftPhrase(worst, unit)}.`;
  const mark = marks.length === 0 ? '' : ` Marking ${readingsPhrase(marks)}, as control points would do.`;
  const best = mostUncertaintyMm === null ? ' with any instrument' : ` (it can ${most})`;
  return `cannot be decided${best}: ${why}${mark}`;
}
