import { type Inspection, inspected } from '../../inspection/job/inspect';
import { derived } from '../../memory/derived';
import type { Chassis } from '../../model/chassis';
import type { Job } from '../../model/job';

/** A body before anything was measured on it, as the inspection of a job without a measure. */
export const bodyAlone = derived((chassis: Chassis): Inspection => inspected(emptyJob(chassis), chassis));

/** A job in which nothing was done yet. It was never written: its places are the head of the chassis file. */
const emptyJob = ({ uri, unit, head }: Chassis): Job => ({
  uri,
  unit,
  places: 'vehicle',
  chassisPath: null,
  chassisPlace: null,
  order: null,
  orderPlace: null,
  technician: null,
  instrument: null,
  axes: ['forward', 'left', 'up'],
  base: { kind: 'auto' },
  basePlace: null,
  conditions: new Map(),
  anchors: [],
  scope: null,
  timeline: [],
  signOff: null,
  ignores: [],
  leftOut: [],
  problems: [],
  broken: false,
  head,
});
