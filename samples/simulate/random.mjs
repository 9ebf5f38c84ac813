/**
 * Mulberry32: a small generator that gives the same numbers on every machine for the same seed.
 * @param {number} seed
 * @returns {() => number} uniform in [0, 1)
 */
export function uniformGenerator(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * Normal numbers by Box and Muller's transform.
 * @param {number} seed
 * @returns {(sigma: number, cut?: number) => number} mean 0; drawn again while beyond ± `cut`
 */
export function normalGenerator(seed) {
  const uniform = uniformGenerator(seed);
  return (sigma, cut = Number.POSITIVE_INFINITY) => {
    for (;;) {
      const value = sigma * Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
      if (Math.abs(value) <= cut) return value;
    }
  };
}
