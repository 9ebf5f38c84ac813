import { length, type Vec3 } from '../../geometry/vector';
import { carriedPhrase } from '../../inspection/alignment/carried';
import { mapAxes } from '../../inspection/alignment/points';
import { isCarriedOnly } from '../../inspection/job/provisional';
import { withoutSides } from '../../inspection/job/scope';
import type { PullStep } from '../../inspection/pulls/job-plan/job-plan';
import type { StepHook } from '../../inspection/pulls/job-plan/step-hooks';
import type { PlannedPart } from '../../inspection/pulls/plan';
import { type HoldPlace, holdPlaces } from '../../inspection/pulls/plan-hold';
import { moveAlong, type NeededMove } from '../../inspection/pulls/plan-moves';
import { mirroredId } from '../../model/names';
import { degreesPerRadian, lengthText, type Unit } from '../../model/units';
import { bodyText } from '../hold-words';
import { fromToText, placeText } from '../places';
import { angleToCentrelineDegrees, angleToFloorDegrees, directionWords } from '../pull-direction';
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
import type { PageStep } from './page-step';

/** A direction that is less than this off the main one is left out, degrees. */
const leastDegrees = 10;

/** A step that pulls. */
export function pullStep(step: PullStep, unit: Unit): PageStep {
  const ids = withoutSides(step.plans.map(({ part }) => part.id));
  const several = step.plans.length > 1;
  return {
    title: `pull ${listPhrase(ids)}${several ? ` together: ${togetherText[step.together]}` : ''}`,
    lines: [
      ...step.braces.map(({ member, mounts }): [string, string] => [
        'brace',
        `first, between ${listPhrase(withoutSides(mounts))}: ${member} is out, and what held the metal there is gone (common practice).`,
      ]),
      ...step.hooks.map((hook): [string, string] => ['hook', hookText(hook)]),
      ...coupleLines(step),
      ...alongLines(step),
      ['hold', holdText(step.plans, unit)],
      ...step.hooks.map((hook): [string, string] => ['aim', aimText(hook, unit)]),
      ['to go', movesText(step, unit)],
      ...relieveLines(step, unit),
      ...step.seams.map(({ part, to, nearId }): [string, string] => [
        'seam',
        `${to.id} is not pulled with it: the seam of ${part.id} to it will open near ${nearId}; watch it, and stop if it tears.`,
      ]),
      ['read', readText(step)],
    ],
  };
}

const togetherText: Record<PullStep['together'], string> = {
  motion: 'they moved as one',
  seam: 'they are joined and have to go the same way',
  gap: 'a gap was seen where they are joined (common practice)',
};

/** `rail-tip.L: left (outboard) and slightly up; square to the centreline`. */
export function hookText({ move, writtenDirection, holdsBack }: StepHook): string {
  const words = directionWords(writtenDirection, move.point.side, Math.tan(leastDegrees / degreesPerRadian));
  const way = holdsBack ? `only hold it back, ${words}` : words;
  const angles = angleText(writtenDirection);
  return `${move.id}: ${way}${angles === '' ? '' : `; ${angles}`}`;
}

/** To the centreline only where a pull is not mostly up or down; to the floor only where it rises or falls. */
function angleText(way: Vec3): string {
  const floor = angleToFloorDegrees(way);
  const centreline = Math.abs(floor) > 45 ? null : angleToCentrelineDegrees(way);
  const rounded = Math.round(Math.abs(floor));
  return [
    ...(centreline === null ? [] : [centrelineWords(centreline)]),
    ...(rounded < leastDegrees || rounded > 90 - leastDegrees
      ? []
      : [floor > 0 ? `rising ${rounded}° from the floor` : `falling ${rounded}° to the floor`]),
  ].join(', ');
}

function centrelineWords(degrees: number): string {
  if (degrees < leastDegrees) return 'along the centreline';
  return degrees > 90 - leastDegrees
    ? 'square to the centreline'
    : `${Math.round(degrees)}° to the centreline`;
}

/** Parts that the others carry. */
function alongLines({ plans, hooks }: PullStep): [string, string][] {
  const carried = plans
    .filter((plan) => hooks.every((hook) => hook.plan !== plan))
    .map(({ part }) => part.id);
  const whose = carried.length === 1 ? 'a chain of its own' : 'chains of their own';
  return carried.length === 0 ? [] : [['along', `${listPhrase(withoutSides(carried))}, without ${whose}`]];
}

/** Two chains on one part, one against the other. */
const coupleLines = ({ hooks }: PullStep): [string, string][] =>
  hooks.flatMap(({ plan, move }, i): [string, string][] => {
    const isFirst = hooks.findIndex((hook) => hook.plan === plan) === i;
    if (!isFirst || plan.twist === null || hooks.filter((hook) => hook.plan === plan).length < 2) return [];
    const [one, other] = hooks.filter((hook) => hook.plan === plan);
    return [
      [
        'both',
        `load ${one.move.id} and ${other.move.id} together: a couple against the twist at ${move.id} (${stationTwistText(plan.twist, plan.part.along)})`,
      ],
    ];
  });

function holdText(plans: readonly PlannedPart[], unit: Unit): string {
  const held = plans.filter(({ hold }) => hold.kind !== 'not-on-part');
  const { anchorIds } = plans[0];
  const anchors =
    anchorIds.length === 0 ? '' : `; the body stays anchored at ${shortList(withoutSides(anchorIds))}`;
  if (held.length === 0) {
    return `${bodiesText(plans)}, where the maker's procedure says: no straight metal was seen on ${plans.length > 1 ? 'them' : 'it'}${anchors}`;
  }
  const places = new Map<string, string[]>();
  for (const plan of held) {
    const text = holdPlaces(plan.hold)
      .map((place) => placeWords(place, plan, unit))
      .join(' and at ');
    const why = holdReason(plan, unit);
    places.set(`${text}${why}`, [...(places.get(`${text}${why}`) ?? []), plan.part.id]);
  }
  const texts = [...places].map(([text, ids]) => `${listPhrase(withoutSides(ids))} at ${text}`);
  return `${texts.join('; ')}${anchors}`;
}

/** Parts that have the body on the same side, together. */
function bodiesText(plans: readonly PlannedPart[]): string {
  const named = plans.flatMap(({ hold, part }) =>
    hold.kind === 'not-on-part' ? [{ id: part.id, where: (name: string) => bodyText(hold.body, name) }] : [],
  );
  const sides = [...new Set(named.map(({ where }) => where('')))];
  const texts = sides.flatMap((side) => {
    const alike = named.filter(({ where }) => where('') === side);
    return alike.slice(0, 1).map(({ where }) => where(listPhrase(withoutSides(alike.map(({ id }) => id)))));
  });
  return listPhrase(texts);
}

const placeWords = ({ atMm, towards }: HoldPlace, { part }: PlannedPart, unit: Unit): string =>
  `${axisNames[part.along]} ${placeText(atMm, part, unit)} or farther ${directionWord(part.along, towards)}`;

/** Where the bend starts, or which reading showed the metal straight. */
function holdReason({ hold, part }: PlannedPart, unit: Unit): string {
  if (hold.kind === 'not-on-part') return '';
  if (hold.kind === 'before-bend') {
    const band = fromToText(hold.bendBetweenMm, part, unit);
    return hold.contradictory
      ? ` (straight by every reading; they do not agree where the bend starts: ${band})`
      : ` (the bend starts at ${band})`;
  }
  const seen = hold.places.flatMap(({ seenIn }) => seenIn ?? []);
  const stages = [...new Set(seen.map(({ stageName }) => `“${stageName}”`))];
  const again = seen.some(({ workedSince }) => workedSince)
    ? '; worked on since, so read it again before you rely on it'
    : '';
  return ` (the last place read as straight${stages.length === 0 ? '' : ` in ${listPhrase(stages)}`}${again})`;
}

function aimText({ move, aim, direction }: StepHook, unit: Unit): string {
  const needed = `${lengthText(length(move.moveMm), unit)} ${certaintyText(moveAlong(move, direction).uncertaintyMm, unit)}`;
  if (aim === null) return `${move.id} stays at its mark: take up that chain only as far as it needs`;
  if (aim.kind === 'none') return `${move.id} ${needed} to its mark, not past it${noAim[aim.why]}`;
  const past = lengthRangeText(aim.recoveryMm[0], aim.recoveryMm[1], unit);
  const seen = `as came back on ${pullsText(aim.pulls)} ${aim.relieved ? 'relieved before release' : 'not relieved; relieved, less comes back, so stop short'}`;
  const carried =
    aim.carriedFrom.length === 0 ? '' : `, carried along the part from ${shortList(aim.carriedFrom)}`;
  return (
    `${move.id} ${lengthRangeText(aim.fromMm, aim.toMm, unit)} under load, never farther: ${needed} to its mark and ${past} ` +
    `past it, ${seen}${carried}`
  );
}

const noAim = {
  'not-seen': '',
  elsewhere: ': how far it springs back was seen at other points only; read this one under load and after',
  'no-set': ': the pulls so far left nothing behind and do not tell how far to go',
  unlikely: ': the spring-back seen so far cannot be right; check the readings under load',
} as const;

/** Of the hooks what is past its limit, for what lies inside needs no move of its own; of the other points how many are out. */
function movesText({ plans, hooks }: PullStep, unit: Unit): string {
  const out = plans.flatMap(({ moves }) => moves).filter(({ verdict }) => verdict === 'outside');
  const isHooked = ({ id }: NeededMove) => hooks.some(({ move }) => move.id === id);
  const texts = hooks
    .flatMap(({ move }) => (move.verdict === 'outside' ? [move] : []))
    .map((move) => {
      const past = movesPhrase(pastLimit(move), move.point.side, unit);
      return `${move.id} ${past} ${certaintyText(worstUncertainty(move), unit)}`;
    });
  const others = out.filter((move) => !isHooked(move)).length;
  const open = plans.flatMap(({ moves }) =>
    moves.filter(({ verdict }) => verdict === 'undecided').map(({ id }) => id),
  );
  const notRead = plans.flatMap((plan) => plan.notRead);
  const carried = plans.find(({ stage }) => isCarriedOnly(stage));
  return [
    ...texts,
    ...(others > 0 ? [`${others} other ${others === 1 ? 'point is' : 'points are'} out`] : []),
    ...(open.length > 0 ? [`not decided: ${shortList(open, 4)}`] : []),
    ...(notRead.length > 0 ? [`not read: ${shortList(notRead, 4)}`] : []),
    ...(carried === undefined ? [] : [carriedPhrase(carried.stage.alignment!.carried!)]),
  ].join('; ');
}

const pastLimit = ({ moveMm, point: { limits } }: NeededMove): Vec3 =>
  mapAxes((k) => {
    const mm = moveMm[k];
    return mm === null || (-mm >= limits[k][0] && -mm <= limits[k][1]) ? 0 : mm;
  });

const worstUncertainty = (move: NeededMove): number => {
  const past = pastLimit(move);
  return Math.max(...mapAxes((k) => (past[k] === 0 ? 0 : (move.uncertaintyMm[k] ?? 0))));
};

/** The bends, whose places stand at the holds, and what was seen besides. */
function relieveLines({ plans, buckles }: PullStep, unit: Unit): [string, string][] {
  const bent = plans.filter(({ hold }) => hold.kind === 'before-bend').map(({ part }) => part.id);
  const seen = buckles.map(({ what, part: mention, atMm }) => {
    const part = plans.find(({ part: { id } }) => id === mention?.id)?.part;
    const place =
      atMm === null || part === undefined
        ? ''
        : ` at ${axisNames[part.along]} ${placeText(atMm, part, unit)}`;
    return `the ${what} on ${mention?.id ?? 'it'}${place}`;
  });
  const where = [...(bent.length === 0 ? [] : [`the bend of ${listPhrase(withoutSides(bent))}`]), ...seen];
  return where.length === 0 ? [] : [['relieve', listPhrase(where)]];
}

function readText({ plans, hooks }: PullStep): string {
  const underLoad = [...new Set(hooks.map(({ move }) => move.id))];
  const counts = plans.map(({ part, moves, notRead }) => ({
    id: part.id,
    count: moves.length + notRead.length,
  }));
  const texts = counts.flatMap(({ id, count }) => {
    const other = counts.find((each) => each.id === mirroredId(id));
    if (other === undefined || other.count !== count) return [`${pointsText(count)} of ${id}`];
    return id.endsWith('.L') ? [`${pointsText(count)} of each ${id.slice(0, -2)}`] : [];
  });
  return `${listPhrase(underLoad)} under load; after release ${listPhrase(texts)}`;
}

const pointsText = (count: number): string => (count === 1 ? 'the point' : `all ${count} points`);
