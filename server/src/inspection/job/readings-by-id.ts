import { derived } from '../../memory/derived';
import { hasNumbers, type Measure, type Reading } from '../../model/job';

/** The rows of a measure by point id, those without numbers too: no point has two. */
export const readingsById = derived(({ readings }: Measure): ReadonlyMap<string, Reading> => {
  const byId = new Map<string, Reading>();
  for (const reading of readings) byId.set(reading.id, reading);
  return byId;
});

/** Whether a measure has numbers for a point. */
export function reads(measure: Measure, id: string): boolean {
  const reading = readingsById(measure).get(id);
  return reading !== undefined && hasNumbers(reading);
}
