import { derived } from '../../memory/derived';
import type { Axis, Chassis, Part } from '../../model/chassis';
import type { Heat, Join, Observe, Pull, Replace, Section, TimelineEntry } from '../../model/job';
import { partsOfEntry } from '../../model/resolve/resolved-job';
import type { Inspection } from './inspect';

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
  readonly joins: readonly Dated<Join>[];
  /** All that was seen on it: kinks, tears, gaps, … */
  readonly seen: readonly Dated<Observe>[];
  /** Of these the kinks and buckles. */
  readonly kinks: readonly Dated<Observe>[];
  /** +1 where the way out from the base counts up along the part, −1 where down; null where the part runs past the base on both sides. */
  readonly away: 1 | -1 | null;
  /** Places past these are not on the part, mm along it in vehicle axes; null where too few points tell how far it runs. */
  readonly reach: readonly [number, number] | null;
}

/** How far metal may run past the outermost points of its part at least; farther on a part whose own points lie farther apart. Chosen. */
const pastPointsMm = 500;

/** Every part that the chassis has and the timeline worked on or saw damaged, in the chassis' order. */
export const partHistories = derived((inspection: Inspection): readonly PartHistory[] => {
  const { job, chassis, work } = inspection;
  const byPart = new Map<string, Works>();
  const worksOn = (id: string): Works => {
    const known = byPart.get(id);
    if (known) return known;
    const works: Works = { pulls: [], heats: [], sections: [], replacements: [], joins: [], seen: [] };
    byPart.set(id, works);
    return works;
  };
  for (const { pull: entry, index, loadedPartIds } of work.pulls)
    for (const id of loadedPartIds) worksOn(id).pulls.push({ entry, index });
  job.timeline.forEach((entry, index) => {
    switch (entry.kind) {
      case 'heat':
        for (const id of partsOfEntry(entry, chassis)) worksOn(id).heats.push({ entry, index });
        break;
      case 'section':
        for (const id of partsOfEntry(entry, chassis)) worksOn(id).sections.push({ entry, index });
        break;
      case 'replace':
        for (const id of partsOfEntry(entry, chassis)) worksOn(id).replacements.push({ entry, index });
        break;
      case 'join':
        for (const id of partsOfEntry(entry, chassis)) worksOn(id).joins.push({ entry, index });
        break;
      case 'observe':
        for (const id of partsOfEntry(entry, chassis)) worksOn(id).seen.push({ entry, index });
    }
  });
  if (byPart.size === 0) return [];
  return [...chassis.parts.values()].flatMap((part) => {
    const works = byPart.get(part.id);
    if (works === undefined) return [];
    const kinks = works.seen.filter(({ entry: { what } }) => what === 'kink' || what === 'buckle');
    return [
      {
        part,
        ...works,
        kinks,
        away: wayFromBase(inspection, part),
        reach: reachOf(inspection.chassis, part),
      },
    ];
  });
});

/** A part that nothing was done to has no history: nothing of it was renewed. */
export const historyOf = (inspection: Inspection, part: Part): PartHistory =>
  partHistories(inspection).find((history) => history.part.id === part.id) ?? {
    part,
    pulls: [],
    heats: [],
    sections: [],
    replacements: [],
    joins: [],
    seen: [],
    kinks: [],
    away: wayFromBase(inspection, part),
    reach: reachOf(inspection.chassis, part),
  };

interface Works {
  readonly pulls: Dated<Pull>[];
  readonly heats: Dated<Heat>[];
  readonly sections: Dated<Section>[];
  readonly replacements: Dated<Replace>[];
  readonly joins: Dated<Join>[];
  readonly seen: Dated<Observe>[];
}

/** Whether the whole part was replaced by an entry between two positions, both left out. A name without its side renews neither side. */
export const replacedBetween = (
  { part, replacements }: PartHistory,
  after: number,
  before = Number.POSITIVE_INFINITY,
): boolean =>
  replacements.some(({ entry, index }) => entry.part.id === part.id && index > after && index < before);

/**
 * Whether the metal at a place was renewed between two positions of the timeline, both left out.
 * @param atMm along the part; null where the place is not known, then only a replacement renews it, as of a place that is not on the part
 */
export const renewedBetween = (
  history: PartHistory,
  atMm: number | null,
  after: number,
  before?: number,
): boolean =>
  replacedBetween(history, after, before) ||
  sectionsBetween(history, after, before).some(
    ({ entry }) => atMm !== null && isOnPart(history, atMm) && renews(history, entry, atMm) === 'renewed',
  );

/** A slip of a digit puts a place where the part has no metal: a cut says nothing about it. */
export const isOnPart = ({ reach }: PartHistory, atMm: number): boolean =>
  reach === null || (atMm >= reach[0] && atMm <= reach[1]);

/** The same for a joint: a new cut at its very place takes it out too. */
export const joinedAnewAfter = (history: PartHistory, atMm: number, after: number): boolean =>
  replacedBetween(history, after) ||
  sectionsBetween(history, after).some(({ entry }) => renews(history, entry, atMm) !== 'left');

const sectionsBetween = ({ sections }: PartHistory, after: number, before = Number.POSITIVE_INFINITY) =>
  sections.filter(({ index }) => index > after && index < before);

/**
 * What a cut makes of the metal at a place. Where one cut leaves open which side of it is new, nothing is taken to be: the way from the base
 * decides, and on a part that runs past the base both ways what the file states.
 */
function renews(
  { part, away }: PartHistory,
  { part: named, cutsMm, beyond }: Section,
  atMm: number,
): 'renewed' | 'cut' | 'left' {
  if (named.id !== part.id) return 'left';
  if (cutsMm.length === 2) {
    const [low, high] = cutsMm;
    if (atMm === low || atMm === high) return 'cut';
    return atMm > low && atMm < high ? 'renewed' : 'left';
  }
  const way = away ?? (beyond === null ? null : waysOf[beyond]);
  if (way === null || cutsMm.length === 0) return 'left';
  const distance = way * (atMm - cutsMm[0]);
  if (distance === 0) return 'cut';
  return distance > 0 ? 'renewed' : 'left';
}

const waysOf = { low: -1, high: 1 } as const;

function reachOf({ points }: Chassis, { id, along }: Part): PartHistory['reach'] {
  const places = [...points.values()]
    .filter(({ part }) => part === id)
    .map(({ reference }) => reference[along]);
  const [low, high] = [Math.min(...places), Math.max(...places)];
  if (!(high > low)) return null;
  const past = Math.max(pastPointsMm, high - low);
  return [low - past, high + past];
}

/** Where a part runs past the base on both sides (a sill), nothing is taken to be renewed by a cut. */
function wayFromBase({ stages, chassis }: Inspection, { id, along }: Part): 1 | -1 | null {
  const places = [...chassis.points.values()]
    .filter((point) => point.part === id)
    .map((point) => point.reference[along]);
  if (places.length === 0) return null;
  const fit = stages.findLast(({ alignment }) => alignment?.base)?.alignment?.base;
  const base = fit ? fit.motion.centroid[along] : middleOfControl(chassis, along);
  if (base === null) return null;
  if (Math.min(...places) > base) return 1;
  return Math.max(...places) < base ? -1 : null;
}

function middleOfControl({ points }: Chassis, along: Axis): number | null {
  const control = [...points.values()].filter((point) => point.base).map((point) => point.reference[along]);
  return control.length === 0 ? null : control.reduce((total, each) => total + each, 0) / control.length;
}
