/**
 * An example to begin with, in the invented shop. Every number is made up: no car has them, and none may be repaired by them.
 */

export const exampleChassisPath = 'specs/marten-example.chassis.yaml';

export const exampleChassis = `framewright: chassis/1
# An example to try Framewright with. The car and every number are invented: repair nothing by this file.
# A position is [length, width, height] in mm; width is outboard. \`both\` makes a point on each side, .L and .R.
vehicle: Marten, example
source: { kind: published, reference: invented for practice, date: 2026-01-12 }
tolerance: 3

# What the maker's manual says of each part. The manual is right where the two differ.
parts:
  floor:      { steel: mild, straighten: freely }
  cowl:       { steel: high-strength, straighten: freely }
  front-rail: { sided: true, along: length, steel: high-strength, straighten: minor, reference: body repair manual 31-20 }

points:
  # Control points: readings are aligned on these. Six or more, spread out, not all at one height.
  floor-front:       { both: [1180, 430,  92], part: floor, base: true }
  floor-middle:      { both: [ 420, 452,  88], part: floor, base: true }
  floor-rear:        { both: [-360, 461,  90], part: floor, base: true }
  tunnel-front:      { both: [ 910, 186, 240], part: floor, base: true }
  rear-floor:        { both: [-1150, 480, 300], part: floor, base: true }
  cowl-hole:         { both: [1640, 620, 900], part: cowl, base: true }
  # The front rails, a lower and an upper row: one row alone does not show a twist.
  rail-root-lower:   { both: [1745, 438, 190], part: front-rail }
  rail-root-upper:   { both: [1745, 441, 322], part: front-rail }
  rail-middle-lower: { both: [2380, 442, 200], part: front-rail }
  rail-middle-upper: { both: [2380, 446, 340], part: front-rail }
  rail-tip-lower:    { both: [3005, 446, 212], part: front-rail }
  rail-tip-upper:    { both: [3005, 450, 356], part: front-rail }
`;

/** What a bench arm might show of such a car after a hit on the front left; in the arm's own frame, mm. */
const exampleReadings: Readonly<Record<string, readonly [number, number, number]>> = {
  'floor-front.L': [1385.7, 414.7, 587.8],
  'floor-front.R': [1397.7, -445.7, 584.8],
  'floor-middle.L': [625.9, 426.0, 580.3],
  'floor-middle.R': [638.3, -477.9, 576.9],
  'floor-rear.L': [-155.0, 424.3, 578.1],
  'floor-rear.R': [-141.4, -498.4, 574.2],
  'tunnel-front.L': [1118.2, 166.1, 733.7],
  'tunnel-front.R': [1123.6, -205.6, 732.1],
  'rear-floor.L': [-945.6, 431.3, 783.6],
  'rear-floor.R': [-931.8, -528.5, 780.9],
  'cowl-hole.L': [1838.7, 607.8, 1398.8],
  'cowl-hole.R': [1856.2, -631.7, 1394.7],
  'rail-root-lower.L': [1950.0, 429.8, 688.7],
  'rail-root-lower.R': [1962.7, -446.1, 685.9],
  'rail-root-upper.L': [1949.5, 432.1, 820.9],
  'rail-root-upper.R': [1962.1, -449.9, 817.7],
  'rail-middle-lower.L': [2583.9, 440.6, 702.3],
  'rail-middle-lower.R': [2597.3, -441.5, 699.4],
  'rail-middle-upper.L': [2583.4, 442.0, 842.6],
  'rail-middle-upper.R': [2596.7, -445.5, 838.7],
  'rail-tip-lower.L': [3203.8, 447.2, 718.3],
  'rail-tip-lower.R': [3221.8, -436.6, 714.2],
  'rail-tip-upper.L': [3202.5, 443.7, 862.6],
  'rail-tip-upper.R': [3221.6, -440.4, 858.5],
};

/** A line to be replaced, counted from 0. */
interface LineEdit {
  readonly line: number;
  readonly text: string;
}

const technician = /^# technician:/;
const instrument = /^# instrument:/;
const row = /^(\s*)# ([\w.-]+):(\s*)\[ , , \]\s*$/;

const ofTheExample = /^chassis:.*\bmarten-example\.chassis\.yaml\b/;

/**
 * Types the example's readings into the rows of a new job that still wait for them; rows that were typed are left alone. A job of
 * any other chassis gets none: they are invented.
 */
export const exampleReadingEdits = (lines: readonly string[]): LineEdit[] => {
  if (!lines.some((text) => ofTheExample.test(text))) return [];
  return lines.flatMap((text, line) => {
    if (technician.test(text)) return [{ line, text: 'technician: jm' }];
    if (instrument.test(text))
      return [{ line, text: 'instrument: { name: bench arm 2, uncertainty: 0.4, repeatability: 0.2 }' }];
    const found = row.exec(text);
    const reading = found && exampleReadings[found[2]];
    if (!found || !reading) return [];
    return [
      {
        line,
        text: `${found[1]}${found[2]}:${found[3]}[${reading.map((figure) => figure.toFixed(1)).join(', ')}]`,
      },
    ];
  });
};
