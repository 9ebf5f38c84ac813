import { derived } from '../../memory/derived';
import type { Measure, Reading } from '../../model/job';

/** The rows of a measure by point id, those of unreachable points too: no point has two. */
export const readingsById = derived(({ readings }: Measure): ReadonlyMap<string, Reading> => {
  const byId = new Map<string, Reading>();
  for (const reading of readings) byId.set(reading.id, reading);
  return byId;
});

/** Whether a measure has numbers for a point. */
export const reads = (measure: Measure, id: string): boolean =>
  readingsById(measure).get(id)?.unreachable === false;
