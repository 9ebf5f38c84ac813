import { requireFinite } from './inputs';
import { factored, inverseOf, solve } from './positive-definite';

interface NonLinearProblem {
  start: readonly number[];
  /** whitened: each divided by its u, so that their sum of squares is a χ² */
  residuals: (x: readonly number[]) => readonly number[];
  /**
   * One row for each residual, one column for each unknown. Asked for, not estimated: differences need to know how
   * small a change of each unknown is, and a wrong guess ends in a wrong answer that looks converged.
   */
  jacobian: (x: readonly number[]) => readonly (readonly number[])[];
  /** default 200 */
  maxIterations?: number;
}

interface NonLinearSolution {
  solution: number[];
  /** (JᵀJ)⁻¹ at the solution; null where the residuals do not determine the unknowns there */
  covariance: number[][] | null;
  chiSquare: number;
  /** no step lowers χ² any more; false where the iterations ran out first */
  converged: boolean;
}

const sumOfSquares = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value * value, 0);

/**
 * The nearest local minimum of Σ residuals², by Levenberg–Marquardt steps scaled by the columns' lengths (Marquardt
 * 1963; Moré 1978), so that the units of the unknowns do not matter.
 * @throws RangeError for no unknowns, a non-finite start, or residuals or derivatives that are not finite there
 */
export function nonLinearLeastSquares(problem: NonLinearProblem): NonLinearSolution {
  const { start, residuals, jacobian, maxIterations = 200 } = problem;
  if (start.length === 0) throw new RangeError('Unknowns: none given.');
  requireFinite('Start', start);

  const count = start.length;
  let x = [...start];
  let values = residuals(x);
  requireFinite('Residuals', values);
  let chiSquare = sumOfSquares(values);
  let longest = x.map(() => 0);
  let damping = 1e-3;
  let lastStep = Number.POSITIVE_INFINITY;
  let converged = false;

  const normal = new Float64Array(count * count);
  const gradient = new Float64Array(count);
  for (let iteration = 0; iteration < maxIterations && !converged; iteration++) {
    if (chiSquare === 0) {
      converged = true;
      break;
    }
    normalEquations(jacobian(x), values, normal, gradient);
    longest = longest.map((value, i) => Math.max(value, normal[i * count + i]));
    const scales = longest.map((value) => Math.sqrt(value) || 1);
    const lengthOf = (step: ArrayLike<number>): number =>
      Math.hypot(...scales.map((scale, i) => step[i] * scale));
    for (;;) {
      const step = dampedStep(normal, gradient, scales, damping);
      const trial = step && x.map((value, i) => value + step[i]);
      const next = trial && residuals(trial);
      const reached = next ? sumOfSquares(next) : Number.NaN;
      // Near the minimum the change of χ² drowns in its rounding while the step is still good.
      if (step && trial && next && reached <= chiSquare * (1 + 1e-14)) {
        const size = lengthOf(step);
        const drowned = chiSquare - reached <= 1e-14 * chiSquare;
        converged = size <= 1e-13 * lengthOf(trial) || (drowned && size >= lastStep);
        lastStep = drowned ? size : Number.POSITIVE_INFINITY;
        x = trial;
        values = next;
        chiSquare = reached;
        damping = Math.max(damping / 10, 1e-15);
        break;
      }
      damping *= 10;
      if (damping > 1e16) {
        // Not even the smallest step down the slope lowers χ².
        converged = true;
        break;
      }
    }
  }
  normalEquations(jacobian(x), values, normal, gradient);
  const factors = factored(normal, count);
  return { solution: x, covariance: factors && rowsOf(inverseOf(factors), count), chiSquare, converged };
}

/** Into `normal` JᵀJ and into `gradient` Jᵀ r, of a Jacobian by its rows. */
function normalEquations(
  jacobian: readonly (readonly number[])[],
  residuals: readonly number[],
  normal: Float64Array,
  gradient: Float64Array,
): void {
  const count = gradient.length;
  normal.fill(0);
  gradient.fill(0);
  jacobian.forEach((row, i) => {
    requireFinite('Derivatives', row);
    for (let k = 0; k < count; k++) {
      // in a large network most distances know nothing of most unknowns
      if (row[k] === 0) continue;
      gradient[k] += row[k] * residuals[i];
      for (let j = 0; j < count; j++) normal[k * count + j] += row[k] * row[j];
    }
  });
}

const rowsOf = (matrix: Float64Array, size: number): number[][] =>
  Array.from({ length: size }, (_, row) => [...matrix.subarray(row * size, (row + 1) * size)]);

/** −(N + λD)⁻¹ g with D = scales², or null where rounding leaves that matrix indefinite. */
function dampedStep(
  normal: Float64Array,
  gradient: Float64Array,
  scales: readonly number[],
  damping: number,
): Float64Array | null {
  const size = gradient.length;
  const damped = normal.slice();
  for (let i = 0; i < size; i++) damped[i * size + i] += damping * scales[i] * scales[i];
  const factors = factored(damped, size);
  if (!factors) return null;
  const step = gradient.slice();
  solve(factors, step);
  for (let i = 0; i < size; i++) step[i] = -step[i];
  return step;
}
