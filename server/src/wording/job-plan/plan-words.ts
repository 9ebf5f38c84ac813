import type { Inspection } from '../../inspection/job/inspect';
import type { PlannedPart } from '../../inspection/pulls/plan';
import { shortList } from '../wording';
import { aimText } from './aim-words';
import { controlText } from './control-words';
import { hookText, twistText } from './hook-words';
import { everyMoveText } from './move-words';
import { readText } from './pull-step-words';
import { signalsOf, signalText } from './signal-words';
import { holdText } from './step-hold-words';

/** The plan of one part for a person, in the words of a step: one line of text for each key, in the order in which the work is done. */
export interface PlanLines {
  readonly move: string;
  readonly hooks: string;
  readonly hold: string;
  readonly aim: string;
  readonly next: string;
  readonly caution: string;
}

export function planLines(plan: PlannedPart, inspection: Inspection): PlanLines {
  const { unit } = inspection.job;
  return {
    move: everyMoveText(plan, unit),
    hooks: sentences([...plan.hooks.map(hookText), twistText(plan, plan.hooks)]),
    hold: holdText([plan], unit),
    aim: sentences(plan.hooks.map((hook) => aimText(hook, plan.hooks.length > 1, unit))),
    next: nextText(plan, inspection),
    caution: signalText(signalsOf([plan], unit)),
  };
}

/** Names of points keep their small letters. */
const sentences = (texts: readonly (string | null)[]): string =>
  texts.filter((text) => text !== null).join('. ');

/** What is done once the chains pull. */
function nextText(plan: PlannedPart, inspection: Inspection): string {
  const { part, moves, notRead, hooks } = plan;
  const ids = [...moves.map((move) => move.id), ...notRead].sort();
  return [
    `Pull in small stages; relieve ${part.id} under load where the maker's procedure allows it, then release.`,
    `Read ${readText([plan], hooks)} (${shortList(ids, 12)}).`,
    ...[controlText(inspection, [part.id])].filter((text) => text !== null),
    'Only a reading off load counts.',
  ].join(' ');
}
