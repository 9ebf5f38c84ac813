import type { Inspection } from '../../inspection/job/inspect';
import { isRenewed, renewalOf } from '../../inspection/pulls/job-plan/renewal';
import { type PlannedPart, type PullPlan, pullPlan } from '../../inspection/pulls/plan';
import { holdPlaces } from '../../inspection/pulls/plan-hold';
import type { PlannedHook } from '../../inspection/pulls/plan-hooks';
import { plainOrQuoted } from '../../text/edits';
import { wrapped } from '../../text/wrapped';
import { placeFigure } from '../places';
import { directionWords } from '../pull-direction';
import { overAdvice } from '../undecided-words';
import { aimText } from './aim-words';
import { hookText, twistText } from './hook-words';
import { moveText } from './move-words';
import { stepIndent } from './page-step';
import { type PlanLines, planLines } from './plan-words';
import { renewStep } from './renew-step-words';
import { outsideScopeLine } from './scope-words';
import { signalLines, signalsOf, whoDecides } from './signal-words';

/** A pull plan as it stands in a file, and as it is printed. */

/**
 * The lines of a `pull:` entry with its plan, ready to be worked through; the first begins with `- `, the others are indented below it.
 * Empty where there is nothing to pull, or it must not be pulled.
 */
export function planEntryLines(inspection: Inspection, partId: string): string[] {
  const plan = pullPlan(inspection, partId);
  if (plan.kind !== 'plan' || isRenewed(inspection, plan)) return [];
  const { unit } = inspection.job;
  const { hold, part } = plan;
  const places = holdPlaces(hold).map(
    ({ atMm }) => `{ part: ${plainOrQuoted(part.id, 'flow')}, at: ${placeFigure(atMm, part, unit)} }`,
  );
  return [
    `- pull: ${plainOrQuoted(titleOf(plan))}`,
    `  part: ${plainOrQuoted(part.id)}`,
    '  chains:',
    ...plan.hooks.map(
      ({ move, writtenDirection }) =>
        `    - { hook: ${plainOrQuoted(move.id, 'flow')}, direction: [${writtenDirection.join(', ')}] }`,
    ),
    ...(places.length === 0 ? [] : [`  hold: [${places.join(', ')}]`]),
    '  plan:',
    ...entriesOf(planLines(plan, inspection)).map(([key, text]) => `    ${key}: ${plainOrQuoted(text)}`),
  ];
}

/** `left (outboard) at rail-tip-upper.L, rail-tip-lower.L held back`. */
function titleOf({ hooks }: PlannedPart): string {
  return hooks
    .map(({ move, writtenDirection, holdsBack }) =>
      holdsBack
        ? `${move.id} held back`
        : `${directionWords(writtenDirection, move.point.side)} at ${move.id}`,
    )
    .join(', ');
}

const entriesOf = (lines: PlanLines): [keyof PlanLines, string][] => [
  ['move', lines.move],
  ['hooks', lines.hooks],
  ['hold', lines.hold],
  ['aim', lines.aim],
  ['next', lines.next],
  ['caution', lines.caution],
];

/** For a terminal: the lines of a step with every point, cautions first because they come first. */
export function planText(plan: PullPlan, inspection: Inspection): string[] {
  const { unit } = inspection.job;
  const part = inspection.chassis.parts.get(plan.kind === 'unknown' ? plan.partId : plan.part.id);
  const renewal = part === undefined ? null : renewalOf(inspection, part, plan);
  const scope = part === undefined ? null : outsideScopeLine(inspection, part.id);
  const outside = scope === null ? [] : wrapped('', scope, 0);
  if (renewal !== null) {
    const { title, lines } = renewStep(renewal, unit);
    return [
      title,
      ...outside,
      ...signalLines(signalsOf([], unit)),
      ...wrapped('', whoDecides, 0),
      ...lines.flatMap(([label, text]) => wrapped(`  ${label}`, text, stepIndent)),
    ];
  }
  switch (plan.kind) {
    case 'plan':
      return [
        `${plan.part.id}: pull plan`,
        ...outside,
        ...signalLines(signalsOf([plan], unit)),
        ...wrapped('', whoDecides, 0),
        ...detailLines(plan, inspection).flatMap(([label, text]) => wrapped(`  ${label}`, text, stepIndent)),
      ];
    case 'rule':
      return [`${plan.part.id}: not to be straightened`];
    case 'within': {
      const undecided = plan.undecided.length === 0 ? '' : `; not decided: ${plan.undecided.join(', ')}`;
      return [`${plan.part.id}: nothing to pull, no point is out in “${plan.stage.name}”${undecided}`];
    }
    case 'unknown':
      return [
        `${plan.partId}: no plan; ${plan.why}${plan.over === undefined ? '' : `: ${overAdvice(plan.over, unit)}`}`,
      ];
  }
}

/** Of one part, with what a step leaves out: each point, and the chains as a file has them. */
function detailLines(plan: PlannedPart, inspection: Inspection): [label: string, text: string][] {
  const { unit } = inspection.job;
  const { move, hold, next } = planLines(plan, inspection);
  const { hooks } = plan;
  const twist = twistText(plan, hooks);
  const within = plan.moves.filter(({ verdict }) => verdict === 'within').map((each) => moveText(each, unit));
  const each = (label: string, textOf: (hook: PlannedHook) => string) =>
    hooks.map((hook): [string, string] => [label, textOf(hook)]);
  return [
    ['to go', move],
    ...each('hook', hookText),
    ...(twist === null ? [] : [[hooks.length > 1 ? 'both' : 'twist', twist] satisfies [string, string]]),
    ['hold', hold],
    ...each('aim', (hook) => aimText(hook, hooks.length > 1, unit)),
    ['then', next],
    ...(within.length === 0 ? [] : [['within', within.join('; ')] satisfies [string, string]]),
    ...each(
      'chain',
      ({ move: { id }, writtenDirection }) => `{ hook: ${id}, direction: [${writtenDirection.join(', ')}] }`,
    ),
  ];
}
