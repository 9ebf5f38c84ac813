import { derived } from '../../memory/derived';
import type { Part } from '../../model/chassis';
import type { Observe } from '../../model/job';
import { isEmptyReason } from '../../model/read/empty-reasons';
import type { Inspection } from './inspect';
import { type Dated, isOnPart, type PartHistory, partHistories, renewedBetween } from './part-history';

/** Something seen on a part of which the file does not say what became of it. */
export interface OpenDamage {
  readonly part: Part;
  readonly seen: Dated<Observe>;
  /** False where only new metal closes it. */
  readonly answerable: boolean;
  /** It is answered, and may not be closed in words. */
  readonly answeredInVain: boolean;
  /** Its place is not on the part, so that no cut can have taken it out. */
  readonly isOffPart: boolean;
}

/**
 * Damage stays open until the part is replaced, a section renews that place, or, for what may be lived with, somebody says what was done.
 * Common practice in the trade: torn or cracked metal, and kinked metal that the maker does not allow to be straightened, is renewed.
 */
export const openDamage = derived((inspection: Inspection): readonly OpenDamage[] =>
  partHistories(inspection).flatMap((history) =>
    history.seen.flatMap((seen): OpenDamage[] => {
      const { entry, index } = seen;
      if (renewedBetween(history, entry.atMm, index)) return [];
      const answerable = mayBeAnswered(entry.what, history);
      if (answerable && entry.answered !== null && !isEmptyReason(entry.answered.how)) return [];
      const isOffPart = entry.atMm !== null && !isOnPart(history, entry.atMm);
      return [{ part: history.part, seen, answerable, answeredInVain: entry.answered !== null, isOffPart }];
    }),
  ),
);

function mayBeAnswered(what: Observe['what'], { part }: PartHistory): boolean {
  switch (what) {
    case 'tear':
    case 'crack':
      return false;
    case 'kink':
      return part.straighten === 'freely';
    default:
      return true;
  }
}
