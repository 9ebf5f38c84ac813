import { Matrix } from 'ml-matrix';
import { requireFinite } from './inputs';
import { factored, inverseOf, whitened } from './positive-definite';

export interface NonLinearProblem {
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

export interface NonLinearSolution {
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

  let x = [...start];
  let values = residuals(x);
  requireFinite('Residuals', values);
  let chiSquare = sumOfSquares(values);
  let longest = x.map(() => 0);
  let damping = 1e-3;
  let lastStep = Number.POSITIVE_INFINITY;
  let converged = false;

  const normalMatrix = (): { normal: Matrix; gradient: Matrix } => {
    const rows = jacobian(x);
    for (const row of rows) requireFinite('Derivatives', row);
    const matrix = new Matrix(rows as number[][]);
    const across = matrix.transpose();
    return { normal: across.mmul(matrix), gradient: across.mmul(Matrix.columnVector(values as number[])) };
  };

  for (let iteration = 0; iteration < maxIterations && !converged; iteration++) {
    if (chiSquare === 0) {
      converged = true;
      break;
    }
    const { normal, gradient } = normalMatrix();
    longest = longest.map((value, i) => Math.max(value, normal.get(i, i)));
    const scales = longest.map((value) => Math.sqrt(value) || 1);
    const lengthOf = (step: readonly number[]): number =>
      Math.hypot(...step.map((value, i) => value * scales[i]));
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
  const factors = factored(normalMatrix().normal);
  return { solution: x, covariance: factors && inverseOf(factors).to2DArray(), chiSquare, converged };
}

/** −(N + λD)⁻¹ g with D = scales², or null where rounding leaves that matrix indefinite. */
function dampedStep(
  normal: Matrix,
  gradient: Matrix,
  scales: readonly number[],
  damping: number,
): number[] | null {
  const damped = normal.clone();
  scales.forEach((scale, i) => {
    damped.set(i, i, damped.get(i, i) + damping * scale * scale);
  });
  const factors = factored(damped);
  if (!factors) return null;
  const half = whitened(factors, gradient);
  return backSubstituted(factors.lower, half.to1DArray()).map((value, i) => -value / factors.scales[i]);
}

/** L⁻ᵀ v */
function backSubstituted(lower: Matrix, values: readonly number[]): number[] {
  const result = [...values];
  for (let row = values.length - 1; row >= 0; row--) {
    for (let k = row + 1; k < values.length; k++) result[row] -= lower.get(k, row) * result[k];
    result[row] /= lower.get(row, row);
  }
  return result;
}
