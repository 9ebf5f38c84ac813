import { type Inspection, inspected } from '../inspection/inspect';
import { oncePer } from '../inspection/once';
import type { Chassis } from '../model/chassis';
import { jobFrom } from '../model/job-from-text';
import { parseText } from '../text/parse';

/** A body before anything was measured on it, as the inspection of a job without a measure. */
export const bodyAlone = oncePer((chassis: Chassis): Inspection => {
  const text = `framewright: readings/1\nchassis: body.chassis.yaml\nunits: ${chassis.unit}\ntimeline: []\n`;
  return inspected(jobFrom(chassis.uri, parseText(text)), chassis);
});
