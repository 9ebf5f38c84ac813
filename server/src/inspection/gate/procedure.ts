import { derived } from '../../memory/derived';
import type { Part } from '../../model/chassis';
import type { Heat, Observe, Pull, Section } from '../../model/job';
import { isHeldTo } from '../../model/resolve/judging';
import type { Inspection } from '../job/inspect';
import { type KnownBend, knownBend } from '../job/known-bend';
import {
  type Dated,
  joinedAnewAfter,
  type PartHistory,
  partHistories,
  renewedBetween,
  replacedBetween,
} from '../job/part-history';

/** Work that went against what the maker's procedure, as recorded in the chassis file, allows; what was renewed since is left out. */
export type Breach =
  | {
      readonly kind: 'never-straighten';
      readonly severe: true;
      readonly part: Part;
      readonly pull: Dated<Pull>;
    }
  | {
      readonly kind: 'kinked';
      readonly severe: true;
      readonly part: Part;
      readonly pull: Dated<Pull>;
      /** The first kink or buckle that was there when it was pulled. */
      readonly kink: Dated<Observe>;
    }
  | {
      readonly kind: 'section-band';
      readonly severe: true;
      readonly part: Part;
      readonly section: Dated<Section>;
      readonly atMm: number;
      readonly band: readonly [number, number];
    }
  | {
      readonly kind: 'section-in-straightened';
      /** False where no bend is known: then any part that was pulled is suspect. */
      readonly severe: boolean;
      readonly part: Part;
      readonly section: Dated<Section>;
      readonly atMm: number;
      readonly pull: Dated<Pull>;
      readonly known: KnownBend | null;
    }
  | {
      readonly kind: 'heat';
      readonly severe: boolean;
      readonly part: Part;
      readonly heat: Dated<Heat>;
      /** `not-written`: the maker states a limit, the job does not say how hot or how long. `no-record`: the maker's limit is not recorded. */
      readonly fault: 'never' | 'hotter' | 'longer' | 'not-written' | 'no-record';
    };

export type BreachOf<Kind extends Breach['kind']> = Extract<Breach, { kind: Kind }>;

/** Everything in the timeline that goes against the recorded procedure, part by part. */
export const breaches = derived((inspection: Inspection): readonly Breach[] =>
  partHistories(inspection).flatMap((history) => [
    ...forbiddenPulls(history),
    ...pulledKinks(inspection, history),
    ...cutsOutsideBand(history),
    ...cutsInStraightened(inspection, history),
    ...heatFaults(history),
  ]),
);

/** The maker says never, or it is press-hardened and nothing is recorded. */
export const mustNotBeStraightened = ({ straighten, steel }: Part): boolean =>
  straighten === 'never' || (straighten === null && steel === 'press-hardened');

function forbiddenPulls(history: PartHistory): Breach[] {
  const { part } = history;
  if (!mustNotBeStraightened(part)) return [];
  return history.pulls
    .filter((pull) => !replacedBetween(history, pull.index))
    .map((pull) => ({ kind: 'never-straighten', severe: true, part, pull }));
}

function pulledKinks(inspection: Inspection, history: PartHistory): Breach[] {
  const { part } = history;
  if (part.straighten !== 'minor') return [];
  return history.pulls.flatMap((pull): Breach[] => {
    // seen while it was pulled it counts like one seen before; cut away before the pull it was never pulled; cut away since, the metal is gone
    const kink = history.kinks.find(
      (each) =>
        each.index < heldUntil(inspection, history, pull) &&
        !renewedBetween(history, each.entry.atMm, each.index),
    );
    return kink === undefined ? [] : [{ kind: 'kinked', severe: true, part, pull, kink }];
  });
}

/** Position of the entry that took the part off a pull; past the end while it is still on. */
function heldUntil({ job, work }: Inspection, { part }: PartHistory, { index }: Dated<Pull>): number {
  if (!isHeldTo('0.2', job)) return index;
  const record = work.pulls.find((each) => each.index === index);
  return record?.partReleasedAt.get(part.id) ?? record?.releasedAt ?? Number.POSITIVE_INFINITY;
}

function cutsOutsideBand(history: PartHistory): Breach[] {
  const { part } = history;
  const band = part.section;
  if (band === null) return [];
  return cutsLeft(history).flatMap(({ section, atMm }): Breach[] =>
    atMm >= band[0] && atMm <= band[1]
      ? []
      : [{ kind: 'section-band', severe: true, part, section, atMm, band }],
  );
}

/** The joints that are still in the car. */
const cutsLeft = (history: PartHistory): { section: Dated<Section>; atMm: number }[] =>
  history.sections.flatMap((section) => {
    const left = section.entry.cutsMm.filter((atMm) => !joinedAnewAfter(history, atMm, section.index));
    return left.map((atMm) => ({ section, atMm }));
  });

/** One for each joint: the worst of what the pulls before and after it make of the metal that it stands in. */
function cutsInStraightened(inspection: Inspection, history: PartHistory): Breach[] {
  const { part } = history;
  return cutsLeft(history).flatMap(({ section, atMm }): Breach[] => {
    const found = history.pulls
      .filter(
        (pull) => pull.index > section.index || !renewedBetween(history, atMm, pull.index, section.index),
      )
      .flatMap((pull) => {
        const known = knownBend(inspection, history, pull.index);
        const verdict = known === null ? 'unknown' : joint(atMm, known);
        return verdict === 'straight' ? [] : [{ pull, known, severe: verdict === 'straightened' }];
      });
    const worst = found.find(({ severe }) => severe) ?? found[0];
    return worst === undefined ? [] : [{ kind: 'section-in-straightened', part, section, atMm, ...worst }];
  });
}

/** Beyond the last place known to be straight, a joint stands in metal that was bent and pulled back. */
function joint(atMm: number, { bend, provisional }: KnownBend): 'straight' | 'straightened' | 'unknown' {
  if (bend.away * (atMm - bend.straightToMm) > 0) return 'straightened';
  return provisional ? 'unknown' : 'straight';
}

function heatFaults(history: PartHistory): Breach[] {
  const { part } = history;
  return history.heats.flatMap((heat): Breach[] => {
    const fault = replacedBetween(history, heat.index) ? null : heatFault(part, heat.entry);
    const severe = fault === 'never' || fault === 'hotter' || fault === 'longer';
    return fault === null ? [] : [{ kind: 'heat', severe, part, heat, fault }];
  });
}

function heatFault(
  { heat: limit, steel }: Part,
  { toCelsius, forSeconds }: Heat,
): BreachOf<'heat'>['fault'] | null {
  if (limit === null) return steel === 'mild' ? null : 'no-record';
  if (limit === 'never') return 'never';
  if (toCelsius !== null && toCelsius > limit.toCelsius) return 'hotter';
  if (forSeconds !== null && limit.forSeconds !== null && forSeconds > limit.forSeconds) return 'longer';
  return toCelsius === null || (forSeconds === null && limit.forSeconds !== null) ? 'not-written' : null;
}
