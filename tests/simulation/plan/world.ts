import { readFileSync } from 'node:fs';
import path from 'node:path';
import { chassisSheet } from '../../../server/src/model/read/chassis-from-text';
import { chassisFrom } from '../../../server/src/model/resolve/chassis-merge';
import { parseText } from '../../../server/src/text/yaml/parse';

/**
 * The Marten of the samples with what the simulated damages need besides: a crossmember, a second look at the pillars, which here may be
 * straightened so that there is something to plan.
 */
const sample = readFileSync(path.join(process.cwd(), 'samples/specs/marten-hatch.chassis.yaml'), 'utf8');

const withSeams = sample
  .replace('straighten: never             # complete pillar only, no part section', 'straighten: freely')
  .replace('steel: press-hardened', 'steel: mild')
  .replaceAll('straighten: minor', 'straighten: freely')
  .replace('parts:\n', 'parts:\n  crossmember:      { along: width, steel: mild, straighten: freely }\n')
  .replace(
    'points:\n',
    `points:
  crossmember-outer-lower: { both: [ 640, 560, 180], part: crossmember, fixing: hole }
  crossmember-outer-upper: { both: [ 640, 560, 260], part: crossmember, fixing: edge }
  crossmember-inner-lower: { both: [ 640, 300, 180], part: crossmember, fixing: hole }
  crossmember-inner-upper: { both: [ 640, 300, 260], part: crossmember, fixing: edge }
  crossmember-end-lower:   { both: [ 640, 690, 180], part: crossmember, fixing: hole }
  crossmember-end-upper:   { both: [ 640, 690, 260], part: crossmember, fixing: edge }
`,
  );

/** Of seams it says nothing, or names those of all neighbours. */
export const worldTexts = {
  apart: withSeams.replace(/, joined: \[[^\]]*\]/g, '').replace(/^ +joined: .*\n/gm, ''),
  joined: withSeams
    .replace('joined: [cowl]', 'joined: [cowl, radiator-support]')
    .replace('along: width,', 'along: width, joined: [floor, sill],'),
};

export const world = chassisFrom([chassisSheet('file:///car.chassis.yaml', parseText(worldTexts.apart))]);

export const toleranceMm = 3;
