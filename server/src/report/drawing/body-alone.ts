import { type Inspection, inspected } from '../../inspection/job/inspect';
import { derived } from '../../memory/derived';
import type { Chassis } from '../../model/chassis';
import { jobFrom } from '../../model/read/job-from-text';
import { parseText } from '../../text/yaml/parse';

/** A body before anything was measured on it, as the inspection of a job without a measure. */
export const bodyAlone = derived((chassis: Chassis): Inspection => {
  const text = `framewright: readings/1\nchassis: body.chassis.yaml\nunits: ${chassis.unit}\ntimeline: []\n`;
  return inspected(jobFrom(chassis.uri, parseText(text)), chassis);
});
