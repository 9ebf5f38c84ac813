import type { Chassis, Part } from '../model/chassis';
import type { Heat, Observe, Pull, Replace, Section, TimelineEntry } from '../model/job';
import type { Inspection } from './inspect';
import { partIds, pulledPartIds } from './work';

/**
 * What was done to a part, derived from the order of the timeline. A section renews the metal beyond the cut, seen from the base;
 * a replacement renews the whole part; what came before counts against what is left.
 */

/** An entry with its position in the timeline. */
export interface Dated<Entry extends TimelineEntry> {
  readonly entry: Entry;
  readonly index: number;
}

export interface PartHistory {
  readonly part: Part;
  /** Pulls about the part, and those with a hook on it: both load it. */
  readonly pulls: readonly Dated<Pull>[];
  readonly heats: readonly Dated<Heat>[];
  readonly sections: readonly Dated<Section>[];
  readonly replacements: readonly Dated<Replace>[];
  /** Kinks and buckles. */
  readonly kinks: readonly Dated<Observe>[];
  /** +1 where the way out from the base counts up along the part, −1 where down; null where the part runs past the base on both sides. */
  readonly away: 1 | -1 | null;
}

/** By id, every part that the chassis has and the timeline worked on or saw damaged, in the chassis' order. */
export function partHistories(inspection: Inspection): PartHistory[] {
  const { job, chassis } = inspection;
  const entries = job.timeline.map((entry, index) => ({ entry, index }));
  const about = <Kind extends TimelineEntry['kind']>(
    kind: Kind,
    ids: (entry: Extract<TimelineEntry, { kind: Kind }>) => string[],
  ) => {
    type Entry = Extract<TimelineEntry, { kind: Kind }>;
    const byPart = new Map<string, Dated<Entry>[]>();
    for (const { entry, index } of entries) {
      if (entry.kind !== kind) continue;
      const typed = entry as Entry;
      for (const id of ids(typed)) byPart.set(id, [...(byPart.get(id) ?? []), { entry: typed, index }]);
    }
    return byPart;
  };
  const pulls = about('pull', (pull) => loadedPartIds(pull, chassis));
  const heats = about('heat', ({ part }) => partIds([part], chassis));
  const sections = about('section', ({ part }) => partIds([part], chassis));
  const replacements = about('replace', ({ part }) => partIds([part], chassis));
  const kinks = about('observe', ({ what, part }) =>
    part !== null && (what === 'kink' || what === 'buckle') ? partIds([part], chassis) : [],
  );
  const touched = new Set([pulls, heats, sections, replacements, kinks].flatMap((each) => [...each.keys()]));
  return [...chassis.parts.values()]
    .filter((part) => touched.has(part.id))
    .map((part) => ({
      part,
      pulls: pulls.get(part.id) ?? [],
      heats: heats.get(part.id) ?? [],
      sections: sections.get(part.id) ?? [],
      replacements: replacements.get(part.id) ?? [],
      kinks: kinks.get(part.id) ?? [],
      away: wayFromBase(inspection, part),
    }));
}

/** The part that a pull is about and those that its hooks stand on. */
export function loadedPartIds(pull: Pull, chassis: Chassis): string[] {
  const hooked = pull.chains.flatMap(({ hook }) => chassis.points.get(hook.id)?.part ?? []);
  return [...new Set([...pulledPartIds(pull, chassis), ...hooked])];
}

/** Whether the whole part was replaced by an entry between two positions, both left out. */
export const replacedBetween = (
  history: PartHistory,
  after: number,
  before = Number.POSITIVE_INFINITY,
): boolean => history.replacements.some(({ index }) => index > after && index < before);

/**
 * Whether the metal at a place was renewed between two positions of the timeline, both left out.
 * @param atMm along the part; null where the place is not known, then only a replacement renews it
 */
export const renewedBetween = (
  history: PartHistory,
  atMm: number | null,
  after: number,
  before?: number,
): boolean =>
  replacedBetween(history, after, before) ||
  cutsBetween(history, after, before).some((cutMm) => atMm !== null && beyondCut(history, atMm, cutMm) > 0);

/** The same for a joint: a new cut at its very place takes it out too. */
export const joinedAnewAfter = (history: PartHistory, atMm: number, after: number): boolean =>
  replacedBetween(history, after) ||
  cutsBetween(history, after).some((cutMm) => beyondCut(history, atMm, cutMm) >= 0);

const cutsBetween = ({ sections }: PartHistory, after: number, before = Number.POSITIVE_INFINITY): number[] =>
  sections.flatMap(({ entry, index }) =>
    index > after && index < before && entry.atMm !== null ? [entry.atMm] : [],
  );

/** How far a place lies beyond a cut, seen from the base, mm; NaN where there is no telling which end is the new one. */
const beyondCut = ({ away }: PartHistory, atMm: number, cutMm: number): number =>
  away === null ? Number.NaN : away * (atMm - cutMm);

/** Where a part runs past the base on both sides (a sill), nothing is taken to be renewed by a cut. */
export function wayFromBase({ stages, chassis }: Inspection, { id, along }: Part): 1 | -1 | null {
  const places = [...chassis.points.values()]
    .filter((point) => point.part === id)
    .map((point) => point.reference[along]);
  if (places.length === 0) return null;
  const fits = stages.flatMap((stage) => stage.alignment?.base ?? []);
  const control = [...chassis.points.values()]
    .filter((point) => point.base)
    .map((point) => point.reference[along]);
  if (fits.length === 0 && control.length === 0) return null;
  const base =
    fits.at(-1)?.motion.centroid[along] ?? control.reduce((total, each) => total + each, 0) / control.length;
  if (Math.min(...places) > base) return 1;
  return Math.max(...places) < base ? -1 : null;
}
