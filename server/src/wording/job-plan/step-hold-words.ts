import { withoutSides } from '../../inspection/job/scope';
import type { PlannedPart } from '../../inspection/pulls/plan';
import { type HoldPlace, holdPlaces, type PlannedHold } from '../../inspection/pulls/plan-hold';
import type { Unit } from '../../model/units';
import { bodyText } from '../hold-words';
import { fromToText, placeText } from '../places';
import { axisNames, directionWord, listPhrase, shortList } from '../wording';

/** Where the parts of a pull are held, and why there: those that are held alike together. */
export function holdText(plans: readonly PlannedPart[], unit: Unit): string {
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

/** What the place rests on. */
function holdReason(plan: PlannedPart, unit: Unit): string {
  const { hold } = plan;
  if (hold.kind === 'not-on-part') return '';
  const reason =
    hold.kind === 'before-bend' ? bendReason(hold, plan, unit) : straightReason(hold, plan, unit);
  const isWorked = holdPlaces(hold).some(({ seenIn }) => seenIn?.workedSince);
  return ` (${reason}${isWorked ? '; worked on since, so read it again before you rely on it' : ''})`;
}

function bendReason(
  { place, bendBetweenMm, stageNames, contradictory }: Extract<PlannedHold, { kind: 'before-bend' }>,
  { part, stage }: PlannedPart,
  unit: Unit,
): string {
  const band = fromToText(bendBetweenMm, part, unit);
  const names = listPhrase(stageNames.map((name) => `“${name}”`));
  if (contradictory)
    return `straight by every reading; ${names} do not agree where the bend starts: anywhere from ${band}; read the part again at four places or more`;
  const isByOthers = stageNames.some((name) => name !== stage.name);
  const by = isByOthers ? ` by ${names}` : '';
  return place.atMm === place.straightToMm
    ? `the bend starts at ${band}${by}`
    : `read as straight, and well behind the bend, which starts anywhere from ${band}${by}`;
}

/** No single bend is known. */
function straightReason(
  { places, why }: Extract<PlannedHold, { kind: 'last-straight' }>,
  { part }: PlannedPart,
  unit: Unit,
): string {
  const seen = places.flatMap(({ seenIn }) => seenIn ?? []);
  const stages = [...new Set(seen.map(({ stageName }) => `“${stageName}”`))];
  const read = stages.length === 0 ? '' : ` in ${listPhrase(stages)}`;
  const [back, alone] = [
    places.filter(({ atMm, straightToMm }) => atMm !== straightToMm),
    places.filter(({ atMm, straightToMm }) => atMm === straightToMm),
  ].map((some) => listPhrase(some.map(({ straightToMm }) => placeText(straightToMm, part, unit))));
  return [
    ...(back === '' ? [] : [`straight as read${read} up to ${back}`]),
    ...(alone === ''
      ? []
      : [`${alone} is the only place there that was read as straight${read}: hold the body behind it too`]),
    `${whyNone[why]}${back === '' ? '' : ', so the hold stands farther back'}`,
  ].join('; ');
}

const whyNone = {
  several: 'it is bent in more than one place',
  none: 'where the bend starts is not known',
  'too-few-stations': 'it was read at too few places to tell where the bend starts',
} as const;
