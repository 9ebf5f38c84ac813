import { derived } from '../../memory/derived';
import type { Part } from '../../model/chassis';
import type { Replace, Section } from '../../model/job';
import { isHeldTo } from '../../model/resolve/judging';
import type { Inspection } from '../job/inspect';
import { type Dated, partHistories, replacedBetween } from '../job/part-history';
import { isOnlyBolted } from '../timeline/worked-parts';

/** New metal of which the file does not say that it was joined to the car. */
export interface NotJoined {
  readonly part: Part;
  readonly work: Dated<Section | Replace>;
}

/**
 * Cuts, and replacements of what is not only bolted on, that no later `join` follows: measured in the clamps is not measured.
 * In a job signed under 0.1 a section is a cut and its join.
 */
export const notJoined = derived((inspection: Inspection): readonly NotJoined[] => {
  const cutsAreOpen = isHeldTo('0.2', inspection.job);
  return partHistories(inspection).flatMap((history) => {
    const { part, sections, replacements, joins } = history;
    const works: readonly Dated<Section | Replace>[] = [
      ...(cutsAreOpen ? sections : []),
      ...(isOnlyBolted(part.attached) ? [] : replacements),
    ];
    return works
      .filter(({ index }) => !replacedBetween(history, index) && !joins.some((join) => join.index > index))
      .map((work) => ({ part, work }));
  });
});
