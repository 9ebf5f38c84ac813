/** How a body stands when it is read, and what the job says of it. */
export const scenarios = [
  'sound',
  'end pair moved',
  'left half moved',
  'random half moved',
  'floor bent as a ramp',
  'floor bent as a ramp, sills straight',
  'floor twisted',
  'both ends moved apart',
  'listed base, half of it moved',
  'rear rails off, not in the scope',
  'rear rails and pillars off, not in the scope',
  'control points nearly on a line',
  'control points at one end',
  'neighbours scatter alike',
  'no scope stated',
] as const;
export type Scenario = (typeof scenarios)[number];

/** Those in which no control point has moved: nothing is to be called moved, and no stage provisional. */
export const soundScenarios: ReadonlySet<Scenario> = new Set<Scenario>([
  'sound',
  'rear rails off, not in the scope',
  'rear rails and pillars off, not in the scope',
  'control points nearly on a line',
  'control points at one end',
  'neighbours scatter alike',
  'no scope stated',
]);

export const scattersMm = [0.5, 0.8] as const;
export const uncertaintiesMm = [0.3, 0.5] as const;
export const controlCounts = [4, 6, 8, 12] as const;

export interface FrameCell {
  readonly index: number;
  readonly scenario: Scenario;
  readonly scatterMm: (typeof scattersMm)[number];
  readonly uncertaintyMm: (typeof uncertaintiesMm)[number];
  readonly controlCount: (typeof controlCounts)[number];
}

/** How many cars stand for each combination. */
const carsEach = 20;

const dimensions = [
  scenarios.length,
  scattersMm.length,
  uncertaintiesMm.length,
  controlCounts.length,
  carsEach,
];

export const frameGridSize = dimensions.reduce((product, size) => product * size, 1);

/** @param index 0 to frameGridSize − 1 */
export function frameCellAt(index: number): FrameCell {
  let rest = index;
  const [a, b, c, d] = dimensions.map((size) => {
    const digit = rest % size;
    rest = Math.floor(rest / size);
    return digit;
  });
  return {
    index,
    scenario: scenarios[a],
    scatterMm: scattersMm[b],
    uncertaintyMm: uncertaintiesMm[c],
    controlCount: controlCounts[d],
  };
}
