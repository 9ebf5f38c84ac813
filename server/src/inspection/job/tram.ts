import {
  distanceNetwork,
  type Network,
  type NetworkDistance,
  type NetworkPoint,
} from '../../geometry/distance-network';
import { planeOf } from '../../geometry/spread';
import { eigenPairs } from '../../geometry/symmetric';
import {
  add,
  crossMatrix,
  diagonal,
  dot,
  type Mat3,
  product,
  quadratic,
  scaled,
  scaledMatrix,
  subtract,
  sum,
  transposed,
  type Vec3,
  zero,
} from '../../geometry/vector';
import type { Chassis, Point } from '../../model/chassis';
import type { Instrument, Job, Measure } from '../../model/job';
import { resolvedJob } from '../../model/resolve/resolved-job';
import type { Displacement, Share, StageDoubt } from '../alignment/displacements';
import { type JudgedPoint, judgedPoint, mapAxes, unknownVec3 } from '../alignment/points';
import { instrumentOf } from '../alignment/prepared';
import {
  distanceUncertaintyMm,
  type JudgedSpan,
  judgedSpans,
  listedSpan,
  meanDistance,
} from '../alignment/spans';
import { partInspections } from './part-inspections';
import type { JudgedMeasure, MovedControl, TramNetwork } from './stage';
import { contradicts, likeliestFault, withScatter } from './tram-faults';

/**
 * A job measured with a tram gauge or tape alone: distances adjusted as a network (server/README.md, "Tram-only jobs").
 * Sources: Ghilani & Wolf, Adjustment Computations; Baarda 1968.
 */

/** How far from the reference a point may be thought to lie before anything is read, mm: what distances cannot tell stays there. */
const priorMm = 50;
/** Past this an axis counts as not observed, mm. */
const observableMm = 3;

/** A job with distances and no three-number readings at all. */
export const tramOnly = (job: Job): boolean => {
  const measures = job.timeline.filter((entry) => entry.kind === 'measure');
  return (
    measures.some((measure) => measure.spans.length > 0) &&
    measures.every((measure) => measure.readings.length === 0)
  );
};

export function tramStage(job: Job, chassis: Chassis, measure: Measure): JudgedMeasure {
  const spans = judgedSpans(chassis, instrumentOf(job, measure), measure.spans);
  const nothing = {
    provisional: false,
    alignment: null,
    points: [],
    spans,
    parts: [],
    body: null,
    displacements: [],
    doubt: null,
    network: null,
  };
  const ids = [...new Set(spans.flatMap((span) => [span.from, span.to]))];
  const points = ids.map((id) => chassis.points.get(id)!);
  const { controlIds } = resolvedJob(job, chassis);
  const isControl = (point: Point) => controlIds.has(point.id);
  if (points.every(isControl)) return nothing;
  const { network, moved, suspect } = settledNetwork(job, chassis, measure, points, spans);
  if (!network.converged) return nothing;
  const left = new Set(moved.flatMap(({ id, kept }) => (kept ? [] : [id])));
  const isBase = (point: Point) => isControl(point) && !left.has(point.id);
  const judged = points.flatMap((point, i) =>
    isBase(point) ? [] : [judgedInNetwork(point, i, network, spans, points)],
  );
  const displacements = displacementsIn(points, network, judged);
  const doubt = networkDoubt(points, network);
  const base = points.filter(isBase);
  const baseCentroid = mapAxes(
    (k) => base.reduce((total, point) => total + point.reference[k], 0) / Math.max(1, base.length),
  );
  const provisional = job.base.kind !== 'ids' && moved.some(({ kept }) => kept);
  return {
    ...nothing,
    provisional,
    points: judged,
    displacements,
    doubt,
    parts: partInspections(chassis, displacements, doubt, baseCentroid),
    network: {
      chiSquare: network.chiSquare,
      degreesOfFreedom: network.degreesOfFreedom,
      suspect,
      moved,
      provisional,
    },
  };
}

interface Settled {
  readonly network: Network;
  readonly moved: readonly MovedControl[];
  readonly suspect: TramNetwork['suspect'];
}

/** The fewest control points that hold a network in space. */
const fewestControl = 3;

/**
 * The distances adjusted, control points that they have elsewhere than the sheet left free one after the other. What still contradicts
 * itself then is less certain by Birge's factor.
 */
function settledNetwork(
  job: Job,
  chassis: Chassis,
  measure: Measure,
  points: readonly Point[],
  spans: readonly JudgedSpan[],
): Settled {
  const ids = points.map(({ id }) => id);
  const distances = networkDistances(chassis, instrumentOf(job, measure), ids, spans);
  const { controlIds } = resolvedJob(job, chassis);
  const control = new Set(points.flatMap(({ id }, i) => (controlIds.has(id) ? [i] : [])));
  const moved: MovedControl[] = [];
  for (;;) {
    const priors = points.map((point, i): NetworkPoint => {
      const known = control.has(i);
      const priorVariance = known ? point.uncertaintyMm ** 2 + chassis.buildMm ** 2 : priorMm ** 2;
      return { position: point.reference, priorVariance, evidence: known };
    });
    const network = distanceNetwork(priors, distances);
    const settled = (suspect: Settled['suspect']): Settled => ({
      network: withScatter(network),
      moved,
      suspect,
    });
    if (!network.converged || !contradicts(network)) return settled(null);
    const fault = likeliestFault(network, priors, [...control], ids, spans);
    if (fault?.kind !== 'control') return settled(fault?.suspect ?? null);
    const { shift, shiftUncertainty } = fault.test;
    const { orElse } = fault;
    const kept = job.base.kind === 'ids' || control.size <= fewestControl || orElse.length > 0;
    moved.push({ id: ids[fault.index], shift, shiftUncertainty, orElse, kept });
    if (kept) return settled(null);
    control.delete(fault.index);
  }
}

const networkDistances = (
  chassis: Chassis,
  instrument: Instrument | null,
  ids: readonly string[],
  spans: readonly JudgedSpan[],
): NetworkDistance[] =>
  spans.map((span) => ({
    from: ids.indexOf(span.from),
    to: ids.indexOf(span.to),
    distance: meanDistance(span.reading),
    uncertainty: Math.max(distanceUncertaintyMm(instrument, span.reading), 0.01),
    level: listedSpan(chassis, span.from, span.to)?.level ?? false,
  }));

function judgedInNetwork(
  point: Point,
  index: number,
  network: Network,
  spans: readonly JudgedSpan[],
  points: readonly Point[],
): JudgedPoint {
  const position = network.positions[index];
  const covariance = sum(network.covariances[index], diagonal(point.uncertaintyMm ** 2));
  const neighbours = spans.flatMap((each) =>
    each.from === point.id ? [each.to] : each.to === point.id ? [each.from] : [],
  );
  const places = [...new Set(neighbours)].map(
    (other) => network.positions[points.findIndex(({ id }) => id === other)],
  );
  const refused = mirrorAxes(position, covariance, places);
  const u = mapAxes((k) => Math.sqrt(covariance[k][k]));
  const observed = (k: 0 | 1 | 2) => u[k] < observableMm && !refused[k];
  const span = spans.find((each) => each.from === point.id || each.to === point.id)!.reading;
  const key = span.from === point.id ? span.fromPlace : span.toPlace;
  const [best] = eigenPairs(covariance);
  const largest = best.vector.reduce((m, x) => (Math.abs(x) > Math.abs(m) ? x : m), 0);
  return judgedPoint(
    {
      id: point.id,
      point,
      contradictory: false,
      reading: {
        id: point.id,
        triplesMm: [],
        unreachable: false,
        asBefore: false,
        key,
        value: span.place,
        typed: null,
        hasPlainKey: false,
      },
    },
    false,
    {
      measured: mapAxes((k) => (observed(k) ? position[k] : null)),
      deviation: mapAxes((k) => (observed(k) ? position[k] - point.reference[k] : null)),
      uncertainty: mapAxes((k) => (observed(k) ? u[k] : null)),
      alignmentVariance: unknownVec3,
    },
    {
      best: {
        direction: scaled(best.vector, largest < 0 ? -1 : 1),
        uncertaintyMm: Math.sqrt(Math.max(0, best.value)),
      },
    },
  );
}

/**
 * A point close to the plane of the points it was measured from could as well be its mirror image: then height is refused.
 * @param places where those points are
 */
function mirrorAxes(
  position: Vec3,
  covariance: Mat3,
  places: readonly Vec3[],
): readonly [boolean, boolean, boolean] {
  if (places.length < 3) return [false, false, false];
  const plane = planeOf(places);
  if (plane.thickness > 10) return [false, false, false];
  const off = dot(plane.normal, subtract(position, plane.centroid));
  const u = Math.sqrt(Math.max(0, quadratic(plane.normal, covariance)));
  if (Math.abs(off) >= 3 * u) return [false, false, false];
  return [Math.abs(plane.normal[0]) > 0.5, Math.abs(plane.normal[1]) > 0.5, true];
}

/** Shapes of parts need whole positions: points of which an axis is unknown do not take part. */
function displacementsIn(
  points: readonly Point[],
  network: Network,
  judged: readonly JudgedPoint[],
): Displacement[] {
  const known = new Set(
    judged.filter((each) => each.deviation.every((d) => d !== null)).map((each) => each.id),
  );
  return points.flatMap((point, i) => {
    if (!known.has(point.id)) return [];
    const covariance = network.covariances[i];
    return [
      {
        point,
        measured: network.positions[i],
        shift: subtract(network.positions[i], point.reference),
        variance: (covariance[0][0] + covariance[1][1] + covariance[2][2]) / 3 + point.uncertaintyMm ** 2,
      },
    ];
  });
}

/** θ = J⁻¹ Σ w r × d, so that Cov θ takes the full covariance of the shifts d. */
function turnInNetwork(
  own: Mat3,
  points: readonly Displacement[],
  weights: readonly number[],
  covariance: (a: Displacement, b: Displacement) => Mat3,
): Mat3 {
  const total = weights.reduce((all, weight) => all + weight, 0);
  const centroid = points
    .map(({ point }, i) => scaled(point.reference, weights[i] / total))
    .reduce(add, zero);
  const levers = points.map(({ point }, i) =>
    product(own, scaledMatrix(crossMatrix(subtract(point.reference, centroid)), weights[i])),
  );
  let result: Mat3 = [zero, zero, zero];
  points.forEach((a, i) => {
    points.forEach((b, j) => {
      result = sum(result, product(product(levers[i], covariance(a, b)), transposed(levers[j])));
    });
  });
  return result;
}

function networkDoubt(points: readonly Point[], network: Network): StageDoubt {
  const index = new Map(points.map((point, i) => [point.id, i]));
  const covariance = (a: Displacement, b: Displacement): Mat3 => {
    const joint = network.covariance(index.get(a.point.id)!, index.get(b.point.id)!);
    return a.point.id === b.point.id ? sum(joint, diagonal(a.point.uncertaintyMm ** 2)) : joint;
  };
  return {
    rotation: [zero, zero, zero],
    turn: (own, group, weights) => turnInNetwork(own, group, weights, covariance),
    between: (a: Share, b: Share) => {
      let total: Mat3 = [zero, zero, zero];
      a.points.forEach((first, i) => {
        b.points.forEach((second, j) => {
          total = sum(total, scaledMatrix(covariance(first, second), a.shares[i] * b.shares[j]));
        });
      });
      return total;
    },
  };
}
