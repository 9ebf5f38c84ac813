import type { Count } from './tally';

const z = 1.959963984540054;

/** 95 % interval of the share that so many hits of so many cases come from: Wilson 1927, without a correction for continuity. */
export function wilsonInterval({ hits, of }: Count): readonly [low: number, high: number] {
  if (of === 0) return [0, 1];
  const share = hits / of;
  const centre = (share + z ** 2 / (2 * of)) / (1 + z ** 2 / of);
  const half = (z * Math.sqrt((share * (1 - share)) / of + z ** 2 / (4 * of ** 2))) / (1 + z ** 2 / of);
  return [Math.max(0, centre - half), Math.min(1, centre + half)];
}
