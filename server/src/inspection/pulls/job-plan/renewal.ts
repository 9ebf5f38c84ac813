import type { Part, Point } from '../../../model/chassis';
import type { Observe } from '../../../model/job';
import type { Inspection } from '../../job/inspect';
import { openDamage } from '../../job/open-damage';
import { historyOf } from '../../job/part-history';
import type { PlannedPart, PullPlan, RuledOutPart } from '../plan';
import { holdPlaces, type PlannedHold } from '../plan-hold';
import { pointsOfPart } from './neighbours';

type Band = readonly [number, number];

/** Where metal may be cut out: a band for each cut, mm along the part, low first; or the part is renewed whole. */
export type Cut =
  | { readonly kind: 'bands'; readonly bandsMm: readonly Band[] }
  | { readonly kind: 'whole'; readonly why: 'not-straight' | 'no-straight-metal' }
  /** No band is recorded, or it is not known where the damage is. */
  | { readonly kind: 'unknown'; readonly why: 'no-band' | 'no-place'; readonly bandMm: Band | null };

/** A part, or metal of it, that may not be pulled straight. */
export interface Renewal {
  readonly kind: 'renew';
  readonly part: Part;
  readonly why: RuledOutPart['why'] | 'damage';
  /** What was seen on it and only new metal closes. */
  readonly seen: readonly Observe[];
  readonly cut: Cut;
  /** Where it is hurt: its points outside tolerance, else all. */
  readonly points: readonly Point[];
}

/** Parts that may not be straightened, and those on which something is open that no words close. */
export const renewals = (inspection: Inspection, plans: ReadonlyMap<string, PullPlan>): readonly Renewal[] =>
  [...inspection.chassis.parts.values()].flatMap(
    (part) => renewalOf(inspection, part, plans.get(part.id)) ?? [],
  );

/** Null where the part may be pulled straight, or nothing of it is known to be hurt. */
export function renewalOf(inspection: Inspection, part: Part, found: PullPlan | undefined): Renewal | null {
  const seen = openDamage(inspection)
    .filter(({ answerable, part: { id } }) => !answerable && id === part.id)
    .map((each) => each.seen.entry);
  const plan = found?.kind === 'plan' || found?.kind === 'rule' ? found : null;
  if (plan?.kind !== 'rule' && seen.length === 0) return null;
  const out = plan?.moves.filter(({ verdict }) => verdict === 'outside').map(({ point }) => point) ?? [];
  return {
    kind: 'renew',
    part,
    why: plan?.kind === 'rule' ? plan.why : 'damage',
    seen,
    cut: cutOf(inspection, part, seen, plan),
    points: out.length > 0 ? out : (pointsOfPart(inspection.chassis).get(part.id) ?? []),
  };
}

/** What is renewed is not pulled. */
export const isRenewed = (inspection: Inspection, plan: PlannedPart): boolean =>
  renewalOf(inspection, plan.part, plan) !== null;

/** A cut stands in the recorded band, in straight metal, and on that side of all damage. */
function cutOf(
  inspection: Inspection,
  part: Part,
  seen: readonly Observe[],
  plan: PlannedPart | RuledOutPart | null,
): Cut {
  if (part.section === null) return { kind: 'unknown', why: 'no-band', bandMm: null };
  const placesMm = seen.flatMap(({ atMm }) => atMm ?? []);
  if (plan === null && placesMm.length === 0)
    return { kind: 'unknown', why: 'no-place', bandMm: part.section };
  if (plan?.hold.kind === 'not-on-part') return { kind: 'whole', why: 'no-straight-metal' };
  const { away } = historyOf(inspection, part);
  const ends: readonly (1 | -1)[] =
    plan === null ? (away === null ? [-1, 1] : [away === 1 ? -1 : 1]) : endsOf(plan.hold);
  const bands = ends.map((towards) => soundBand(part.section!, towards, plan?.hold ?? null, placesMm));
  const cuts = bands.filter((band) => band !== null);
  return cuts.length === ends.length
    ? { kind: 'bands', bandsMm: cuts }
    : { kind: 'whole', why: 'not-straight' };
}

const endsOf = (hold: PlannedHold): readonly (1 | -1)[] => holdPlaces(hold).map(({ towards }) => towards);

/** What of a band lies in straight metal on one side of the damage; null for nothing. */
function soundBand(
  band: Band,
  towards: 1 | -1,
  hold: PlannedHold | null,
  damagedAtMm: readonly number[],
): Band | null {
  const straight = hold === null ? [] : holdPlaces(hold).filter((place) => place.towards === towards);
  const limits = [...straight.map(({ straightToMm }) => straightToMm), ...damagedAtMm];
  const [low, high] =
    towards === 1 ? [Math.max(band[0], ...limits), band[1]] : [band[0], Math.min(band[1], ...limits)];
  return low < high ? [low, high] : null;
}
