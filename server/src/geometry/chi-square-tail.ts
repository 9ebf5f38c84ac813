import { normalCdf } from './distributions';

/**
 * ln P(X > x) of a χ² variable with whole degrees of freedom, right far into the tail where the chance itself is no number any more.
 * P = e^(−x/2) S with S₂ = 1, S₁ = e^(x/2) · 2 Φ(−√x), S of two degrees more: S + (x/2)^(n/2) / Γ(n/2 + 1). Abramowitz & Stegun 1964,
 * 26.4.4 and 26.4.5; the far tail of Φ by the continued fraction 26.2.14.
 * @param x at least 0
 * @param degreesOfFreedom a whole number from 1 on
 * @throws RangeError for other values
 */
export function logChiSquareTail(x: number, degreesOfFreedom: number): number {
  if (!(x >= 0) || !Number.isInteger(degreesOfFreedom) || degreesOfFreedom < 1)
    throw new RangeError(`χ² of ${x} on ${degreesOfFreedom} degrees of freedom has no tail.`);
  const half = x / 2;
  const isOdd = degreesOfFreedom % 2 === 1;
  let share = isOdd ? scaledNormalTails(Math.sqrt(x)) : 1;
  // (x/2)^(n/2) / Γ(n/2 + 1), with Γ(3/2) = √π / 2
  let term = isOdd ? Math.sqrt(half) / (Math.sqrt(Math.PI) / 2) : half;
  for (let n = isOdd ? 1 : 2; n < degreesOfFreedom; n += 2) {
    share += term;
    term *= half / (n / 2 + 1);
  }
  return Math.log(share) - half;
}

const far = 5;
const fractions = 40;

/** e^(z²/2) · 2 Φ(−z) */
function scaledNormalTails(z: number): number {
  if (z < far) return Math.exp((z * z) / 2) * 2 * normalCdf(-z);
  let denominator = z;
  for (let k = fractions; k >= 1; k--) denominator = z + k / denominator;
  return Math.SQRT2 / (Math.sqrt(Math.PI) * denominator);
}
