import type { Chassis } from '../chassis';
import type { BaseSetting, Hold, Job, Mention, Section, TimelineEntry } from '../job';
import { idsNamed, sideOf } from '../names';
import { lengthOf, type Sign, signed, signedBand } from '../sheet-axes';

/**
 * A job with its places along the car as vehicle axes have them, mm: in the file they are numbers of the sheet that it names. A job
 * whose places are so already is given back as it is.
 */
export function placedJob(job: Job, chassis: Chassis): Job {
  if (job.places === 'vehicle') return job;
  return {
    ...job,
    places: 'vehicle',
    base: placedBase(job.base, chassis),
    timeline: job.timeline.map((entry) => placedEntry(entry, chassis)),
  };
}

function placedBase(base: BaseSetting, chassis: Chassis): BaseSetting {
  const { sheetSign } = lengthOf(chassis);
  if (base.kind !== 'between' || sheetSign === 1) return base;
  const [fromMm, toMm] = signedBand(sheetSign, [base.fromMm, base.toMm]);
  return { ...base, fromMm, toMm };
}

function placedEntry(entry: TimelineEntry, chassis: Chassis): TimelineEntry {
  switch (entry.kind) {
    case 'observe': {
      const sign = signOn(entry.part, chassis);
      return sign === 1 || entry.atMm === null ? entry : { ...entry, atMm: signed(sign, entry.atMm) };
    }
    case 'section':
      return signOn(entry.part, chassis) === 1 ? entry : turned(entry);
    case 'pull': {
      const holds = entry.holds.flatMap((hold) => placedHold(hold, chassis));
      return holds.every((hold, i) => hold === entry.holds[i]) ? entry : { ...entry, holds };
    }
    default:
      return entry;
  }
}

/** How the sheet counts along a part; along the length where the part is not known. */
const signOn = (part: Mention | null, chassis: Chassis): Sign =>
  (part === null ? undefined : chassis.parts.get(part.id))?.sheetSign ?? lengthOf(chassis).sheetSign;

const otherEnd = { low: 'high', high: 'low' } as const;

const turned = (entry: Section): Section => ({
  ...entry,
  cutsMm: entry.cutsMm.map((mm) => signed(-1, mm)).reverse(),
  beyond: entry.beyond && otherEnd[entry.beyond],
});

/** A name without a side means both, and where these count the other way the place is mirrored as their points are. */
function placedHold(hold: Hold, chassis: Chassis): readonly Hold[] {
  if (hold.kind === 'point') return [hold];
  const { part, atMm } = hold;
  const ids = idsNamed(part.id, chassis.parts);
  const isBoth = sideOf(part.id) === null && ids.length === 2;
  if (isBoth && chassis.parts.get(ids[0])?.along === 1)
    return ids.map((id) => ({
      ...hold,
      part: { ...part, id },
      atMm: signed(sideOf(id) === 'R' ? -1 : 1, atMm),
    }));
  const sign = signOn({ ...part, id: ids[0] ?? part.id }, chassis);
  return [sign === 1 ? hold : { ...hold, atMm: signed(sign, atMm) }];
}
