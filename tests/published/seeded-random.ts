/** Random numbers that are the same in every run: mulberry32 (T. Ettinger, public domain), normals by Box & Muller 1958. */
export interface SeededRandom {
  uniform: (from: number, to: number) => number;
  normal: (standardDeviation?: number) => number;
}

export function seededRandom(seed: number): SeededRandom {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    uniform: (from, to) => from + (to - from) * next(),
    normal: (standardDeviation = 1) =>
      standardDeviation * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
  };
}
