import { length } from '../../geometry/vector';
import { carriedPhrase } from '../../inspection/alignment/carried';
import { mapAxes } from '../../inspection/alignment/points';
import { isCarriedOnly } from '../../inspection/job/provisional';
import { withoutSides } from '../../inspection/job/scope';
import type { PlannedPart } from '../../inspection/pulls/plan';
import { type HoldPlace, holdPlaces, type PlannedHold } from '../../inspection/pulls/plan-hold';
import type { PlannedHook } from '../../inspection/pulls/plan-hooks';
import { moveAlong, type NeededMove } from '../../inspection/pulls/plan-moves';
import type { Aim } from '../../inspection/pulls/spring-back';
import type { SeenIn } from '../../inspection/pulls/straight-metal';
import { lengthText, type Unit } from '../../model/units';
import { bodyText } from '../hold-words';
import { andText, doubtfulPlaceText, placeText } from '../places';
import { angleWords, directionWords } from '../pull-direction';
import { pullsText } from '../spring-back-words';
import { stationTwistText } from '../twist-wording';
import {
  axisNames,
  certaintyText,
  directionWord,
  lengthRangeText,
  listPhrase,
  movesPhrase,
  shortList,
} from '../wording';
import { signalsOf, signalText } from './signal-words';

export type Plan = PlannedPart;

/** A pull plan for a person: one line of text for each key, in the order in which the work is done. */
export interface PlanLines {
  readonly move: string;
  readonly hooks: string;
  readonly hold: string;
  readonly aim: string;
  readonly next: string;
  readonly caution: string;
}

export const planLines = (plan: Plan, unit: Unit): PlanLines => ({
  move: moveLine(plan, unit),
  hooks: hooksLine(plan),
  hold: holdLine(plan, unit) + anchorText(plan.anchorIds),
  aim: plan.hooks.map((hook) => aimText(plan, hook, unit)).join(' '),
  next: nextLine(plan),
  caution: signalText(signalsOf([plan], unit)),
});

/** The moves that a reading shows for certain: what is within its doubt would be a direction made of noise. */
export function moveText({ id, point, moveMm, uncertaintyMm }: NeededMove, unit: Unit): string {
  const real = mapAxes((k) => {
    const [mm, u] = [moveMm[k], uncertaintyMm[k]];
    return mm !== null && u !== null && Math.abs(mm) > 2 * u ? mm : 0;
  });
  const shown = ([0, 1, 2] as const).filter((k) => real[k] !== 0);
  if (shown.length === 0) return `${id} nothing for certain`;
  const largestU = Math.max(...shown.map((k) => uncertaintyMm[k] ?? 0));
  return `${id} ${movesPhrase(real, point.side, unit)} ${certaintyText(largestU, unit)}`;
}

function moveLine({ moves, notRead, stage }: Plan, unit: Unit): string {
  const size = (move: NeededMove) => length(mapAxes((k) => move.moveMm[k] ?? 0));
  const out = moves.filter((move) => move.verdict === 'outside').sort((a, b) => size(b) - size(a));
  const within = moves.filter((move) => move.verdict === 'within').length;
  const open = moves.filter((move) => move.verdict === 'undecided' || move.verdict === 'unjudged');
  const rest = [
    ...(open.length > 0 ? [`not decided ${shortList(open.map((move) => moveText(move, unit)))}`] : []),
    ...(within > 0 ? [`within tolerance ${within} of ${moves.length} points`] : []),
    ...(notRead.length > 0 ? [`not read ${shortList(notRead)}`] : []),
  ];
  const by = isCarriedOnly(stage) ? ` ${carriedPhrase(stage.alignment!.carried!)},` : '';
  return `${[...out.map((move) => moveText(move, unit)), ...rest].join('; ')} (by “${stage.name}”,${by} certain to 95 %)`;
}

function hooksLine(plan: Plan): string {
  const { hooks, twist } = plan;
  const each = hooks.map(
    (hook) =>
      `at ${hook.move.id} pull ${directionWords(hook.writtenDirection, hook.move.point.side)}, ${angleWords(hook.writtenDirection)}`,
  );
  const first = `${each[0][0].toUpperCase()}${each[0].slice(1)}`;
  const texts = [first, ...each.slice(1)].join('; ');
  if (twist === null) return `${texts}.`;
  const turned = stationTwistText(twist, plan.part.along);
  if (hooks.length === 1)
    return `${texts}. The part is twisted here too (${turned}); both levels still go the same way, so use one hook first: its pull also turns the part back.`;
  const why = hooks[1].holdsBack
    ? `the second chain only keeps ${hooks[1].move.id} where it is`
    : 'each chain takes its own point to its place';
  return `${texts}. Both together, a couple against the twist (${turned}); ${why}.`;
}

function holdLine(plan: Plan, unit: Unit): string {
  const { hold, part } = plan;
  if (hold.kind === 'not-on-part') {
    const why =
      hold.bendMm === null
        ? 'no straight metal to hold on was seen beside the damage'
        : `the bend starts at its root, near ${axisNames[part.along]} ${placeText(hold.bendMm, part, unit)}`;
    return `Not on ${part.id}: ${why}. Hold ${bodyText(hold.body, 'it')}, where the maker's procedure says.`;
  }
  const at = ({ atMm, towards }: HoldPlace) =>
    `${axisNames[part.along]} ${placeText(atMm, part, unit)} or farther ${directionWord(part.along, towards)}`;
  return `Hold ${part.id} at ${holdPlaces(hold).map(at).join(', and at ')}: ${holdReason(hold, plan, unit)}`;
}

const anchorText = (ids: readonly string[]): string =>
  ids.length === 0 ? '' : ` The body stays anchored at ${shortList(withoutSides(ids))}.`;

function holdReason(
  hold: Exclude<PlannedHold, { kind: 'not-on-part' }>,
  { stage, part }: Plan,
  unit: Unit,
): string {
  if (hold.kind === 'before-bend') {
    const names = hold.stageNames.map((name) => `“${name}”`);
    if (hold.contradictory)
      return (
        `straight by every reading of it. Where the bend starts they do not agree: ${listPhrase(names)} have it anywhere between ` +
        `${andText(hold.bendBetweenMm, part, unit)}. Read the part again at four places or more.`
      );
    const alone = hold.stageNames.length === 1 && hold.stageNames[0] === stage.name;
    const seen = alone ? '' : ` by ${names.length > 1 ? 'all of ' : ''}${listPhrase(names)}`;
    return `straight metal, before the bend, which starts at ${doubtfulPlaceText(hold.bendMm, hold.bendBetweenMm, part, unit)}${seen}.`;
  }
  const why = {
    several: 'it is bent in more than one place',
    none: 'no single bend can be told from the readings',
    'too-few-stations': 'it was read at too few places to tell where the bend starts',
  }[hold.why];
  const earlier = hold.places.flatMap(({ seenIn }) => seenIn ?? []);
  const seen = earlier.length === 0 ? '' : `, in ${listPhrase(uniqueNames(earlier))}`;
  const again = earlier.some(({ workedSince }) => workedSince)
    ? ' It was worked on since: read that place again before you rely on it.'
    : '';
  return `the last place that was read as straight${seen}; ${why}.${again}`;
}

const uniqueNames = (seen: readonly SeenIn[]): string[] => [
  ...new Set(seen.map(({ stageName }) => `“${stageName}”`)),
];

function aimText(plan: Plan, hook: PlannedHook, unit: Unit): string {
  const { move, aim, direction } = hook;
  const stands = `${move.id} ${lengthText(length(move.moveMm), unit)} ${certaintyText(moveAlong(move, direction).uncertaintyMm, unit)}`;
  if (aim === null)
    return `Keep ${move.id} at its mark: take up the second chain only as much as that needs.`;
  const steps = 'Approach in steps: pull, relieve, release, measure.';
  if (aim.kind === 'none')
    return `${noAim[aim.why](move.id)} Pull ${stands} to its mark, not past it. ${steps}`;
  const past = lengthRangeText(aim.recoveryMm[0], aim.recoveryMm[1], unit);
  const seen = `what came back on ${pullsText(aim.pulls)} ${aim.relieved ? 'relieved before release' : 'not relieved; if you relieve this time, expect less to come back, so stop short'}`;
  const carried =
    aim.carriedFrom.length === 0
      ? ''
      : `; ${move.id} itself was not read then: carried along the part from ${shortList(aim.carriedFrom)}, by the distance from the bend`;
  const couple = plan.hooks.length > 1 ? ' A couple may come back differently.' : '';
  return (
    `Under load take ${move.id} ${lengthRangeText(aim.fromMm, aim.toMm, unit)} from where it stands now: the needed ${stands.slice(move.id.length + 1)} and ` +
    `${past} past its mark (${seen}${carried}). Never farther.${couple} ${steps}`
  );
}

const noAim: Record<Extract<Aim, { kind: 'none' }>['why'], (hook: string) => string> = {
  'not-seen': () => 'No spring-back was seen on this part yet.',
  elsewhere: (hook) =>
    `Spring-back was not seen at ${hook}, and what came back at other points cannot be carried to it: read it before the pull, under load and after.`,
  'no-set': () => 'The pulls so far left nothing behind, so they do not tell how far to go.',
  unlikely: () => 'The spring-back seen so far cannot be right: check the readings under load.',
};

function nextLine({ part, moves, hooks, notRead, controlIds, levels }: Plan): string {
  const ids = [...moves.map((move) => move.id), ...notRead].sort();
  const out = moves.filter((move) => move.verdict === 'outside').map((move) => move.id);
  const underLoad = [...new Set([...hooks.map(({ move }) => move.id), ...out])];
  const points = `${ids.length === 1 ? 'the one point' : `all ${ids.length} points`} of ${part.id}${levels ? ', both levels at every place' : ''} (${shortList(ids, 12)})`;
  const control =
    controlIds.length > 0
      ? `, and the ${controlIds.length} control points (${shortList(withoutSides(controlIds), 12)})`
      : '';
  return (
    `Measure ${shortList(underLoad)} under load. Relieve ${part.id} under load where the maker's procedure allows it, release, ` +
    `then read ${points}${control}. Only that reading, off load, counts.`
  );
}
