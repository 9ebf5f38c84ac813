import type { Network, NetworkPoint } from '../../geometry/distance-network';
import { chiSquareQuantile } from '../../geometry/distributions';
import { type PriorTest, priorTest } from '../../geometry/prior-test';
import { scaledMatrix } from '../../geometry/vector';
import { rivalChiSquare } from '../alignment/control-points';
import type { JudgedSpan } from '../alignment/spans';
import type { TramNetwork } from './stage';

/**
 * What is wrong in distances that contradict each other: one of them, or a control point that does not stand where the sheet has it
 * (server/README.md, "Tram-only jobs"). Sources: Baarda 1968; Ghilani & Wolf, Adjustment Computations.
 */

export const contradicts = ({ chiSquare, degreesOfFreedom }: Network): boolean =>
  degreesOfFreedom >= 0.5 && chiSquare > chiSquareQuantile(0.99, degreesOfFreedom);

/** A statistic of one coordinate is held against one of three by how far each is over what chance gives once in a thousand. */
const overChance = (statistic: number, degreesOfFreedom: number): number =>
  degreesOfFreedom === 0 ? 0 : statistic / chiSquareQuantile(0.999, degreesOfFreedom);

type TramFault =
  | { readonly kind: 'distance'; readonly suspect: NonNullable<TramNetwork['suspect']> }
  | {
      readonly kind: 'control';
      readonly index: number;
      readonly test: PriorTest;
      readonly orElse: readonly string[];
    };

/**
 * The likeliest single fault of a network that contradicts itself; null where nothing in it is checked.
 * @param priors of the points, as they went into the network
 * @param known positions in `priors` of the points that count as control points
 */
export function likeliestFault(
  network: Network,
  priors: readonly NetworkPoint[],
  known: readonly number[],
  ids: readonly string[],
  spans: readonly JudgedSpan[],
): TramFault | null {
  const tests = known.map((index) => ({
    index,
    test: priorTest(priors[index], network.positions[index], network.covariances[index]),
  }));
  const weight = ({ test }: (typeof tests)[number]) => overChance(test.statistic, test.degreesOfFreedom);
  const point = tests.reduce<(typeof tests)[number] | null>(
    (best, each) => (best === null || weight(each) > weight(best) ? each : best),
    null,
  );
  let worst = 0;
  network.normalisedResiduals.forEach((residual, i) => {
    if (Math.abs(residual) > Math.abs(network.normalisedResiduals[worst])) worst = i;
  });
  const squared = network.normalisedResiduals[worst] ** 2;
  if (squared === 0 && (point === null || point.test.statistic === 0)) return null;
  if (point !== null && weight(point) > overChance(squared, 1) * (1 + 1e-9))
    return {
      kind: 'control',
      ...point,
      orElse: tests.flatMap(({ index, test }) =>
        index !== point.index && test.statistic >= point.test.statistic - rivalChiSquare ? [ids[index]] : [],
      ),
    };
  const { reading } = spans[worst];
  const rival = tests.find(
    ({ index, test }) =>
      (ids[index] === reading.from || ids[index] === reading.to) &&
      test.statistic >= squared - rivalChiSquare,
  );
  return {
    kind: 'distance',
    suspect: {
      reading,
      residualMm: network.residuals[worst] / network.redundancies[worst],
      orMoved: rival ? ids[rival.index] : null,
    },
  };
}

/** With covariances for distances that contradict each other: whatever rests on them is that much less certain (Birge 1932). */
export function withScatter(network: Network): Network {
  if (!contradicts(network)) return network;
  const factor = network.chiSquare / network.degreesOfFreedom;
  return {
    ...network,
    covariances: network.covariances.map((covariance) => scaledMatrix(covariance, factor)),
    covariance: (i, j) => scaledMatrix(network.covariance(i, j), factor),
  };
}
