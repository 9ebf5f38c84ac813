import { derived } from '../../../memory/derived';
import { resolvedJob } from '../../../model/resolve/resolved-job';
import type { Inspection } from '../../job/inspect';
import { openDamage } from '../../job/open-damage';
import { partsAddedToScope } from '../../job/scope';
import { partsToWork } from '../plan';

/**
 * Parts with a point outside tolerance that the job's stated scope leaves out, in the chassis' order: either nobody declared that damage, or
 * their references are wrong. What was worked on, or seen to be damaged, is declared; corrosion alone is no damage that a pull takes out.
 */
export const outOfScope = derived((inspection: Inspection): readonly string[] => {
  const { scope } = resolvedJob(inspection.job, inspection.chassis);
  if (scope === null) return [];
  const added = partsAddedToScope(inspection);
  const isSeen = (id: string): boolean =>
    openDamage(inspection).some(({ part, seen }) => part.id === id && seen.entry.what !== 'corrosion');
  return partsToWork(inspection).filter(
    (id) => !scope.has(id) && added.get(id) !== 'worked on' && !isSeen(id),
  );
});
