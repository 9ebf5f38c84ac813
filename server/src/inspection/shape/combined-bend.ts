import { combinedEstimate } from '../../geometry/combined-estimates';
import { chiSquareQuantile } from '../../geometry/distributions';
import type { Axis } from '../../model/chassis';
import type { StageDoubt } from '../alignment/displacements';
import { type Bend, type BendPlace, bendPlace, leastScatterMm, type StationLeverage } from './bend';
import { halfHingeMm } from './bend-interval';
import { crossAxes, type Station } from './stations';

/**
 * One bend that several stages saw starts at one place (server/README.md, "One bend seen by several stages"): pulling changes how far the
 * metal leans, not where it was hinged. Sources: Aitken 1935; JCGM 100:2008, 5.2 for what the estimates have in common.
 */

export type DeclaredBend = Extract<Bend, { kind: 'bend' }>;

/** One stage's word on where a part is bent. */
interface BendEstimate {
  readonly bend: DeclaredBend;
  readonly doubt: StageDoubt;
}

interface CombinedBend {
  readonly place: BendPlace;
  /** They differ by more than chance: then the place is the one nearest to the base, and the interval holds those of all. */
  readonly contradictory: boolean;
}

interface Common {
  /** The way that the part runs. */
  readonly along: Axis;
  readonly buildMm: number;
  /** Of two estimates, by their positions in the list, the share of the alignment's variance that both have. */
  readonly sharedAlignment: (one: number, other: number) => number;
}

/** @param estimates one or more, all leaving the base the same way */
export function combinedBend(estimates: readonly BendEstimate[], common: Common): CombinedBend {
  const [{ bend }] = estimates;
  if (estimates.length === 1) return { place: bend, contradictory: false };
  const covariance = covarianceOf(estimates, common);
  if (!agree(estimates, covariance)) return { place: hullOf(estimates), contradictory: true };
  const mean = meanOf(estimates, covariance);
  return { place: mean ?? best(estimates), contradictory: false };
}

/** The least certain of its figures decides nothing: what cannot be combined is told by the best alone. */
const best = (estimates: readonly BendEstimate[]): BendPlace =>
  estimates.map(({ bend }) => bend).reduce((a, b) => (b.uncertaintyMm < a.uncertaintyMm ? b : a));

/** A hinge is so long that its corner may wander in it from pull to pull: half its length with equal chance, a variance in mm². */
const wanderingVariance = halfHingeMm ** 2 / 12;
const chance = 0.01;

function agree(estimates: readonly BendEstimate[], covariance: Float64Array): boolean {
  const size = estimates.length;
  const wider = covariance.slice();
  for (let i = 0; i < size; i++) wider[i * (size + 1)] += wanderingVariance;
  const mean = combinedEstimate(placesOf(estimates), wider);
  return mean === null || mean.chiSquare <= chiSquareQuantile(1 - chance, size - 1);
}

const placesOf = (estimates: readonly BendEstimate[]): number[] => estimates.map(({ bend }) => bend.atMm);

/** Null where the covariance cannot be used. An estimate of negative weight is left out, the most negative first: nothing is extrapolated. */
function meanOf(estimates: readonly BendEstimate[], covariance: Float64Array): BendPlace | null {
  let kept = estimates.map((_, i) => i);
  for (;;) {
    const places = kept.map((i) => estimates[i].bend.atMm);
    const mean = combinedEstimate(places, among(kept, covariance, estimates.length));
    if (mean === null) return null;
    const least = mean.weights.indexOf(Math.min(...mean.weights));
    if (mean.weights[least] >= 0) return bendPlace(estimates[0].bend.away, mean.value, mean.uncertainty);
    kept = kept.filter((_, i) => i !== least);
  }
}

const among = (kept: readonly number[], covariance: Float64Array, size: number): Float64Array =>
  Float64Array.from(kept.flatMap((i) => kept.map((j) => covariance[i * size + j])));

/** Cautious in every direction: straight is what all call straight, and the bend starts anywhere that one of them has it. */
function hullOf(estimates: readonly BendEstimate[]): BendPlace {
  const bends = estimates.map(({ bend }) => bend);
  const { away } = bends[0];
  const nearest = (of: (bend: BendPlace) => number): number =>
    away * Math.min(...bends.map((bend) => away * of(bend)));
  return {
    atMm: nearest(({ atMm }) => atMm),
    uncertaintyMm: Math.max(...bends.map(({ uncertaintyMm }) => uncertaintyMm)),
    startsBetweenMm: [
      Math.min(...bends.map(({ startsBetweenMm }) => startsBetweenMm[0])),
      Math.max(...bends.map(({ startsBetweenMm }) => startsBetweenMm[1])),
    ],
    straightToMm: nearest(({ straightToMm }) => straightToMm),
    holdToMm: nearest(({ holdToMm }) => holdToMm),
    away,
  };
}

/** Of the corners, row after row: u(h)² of each, and what two have in common. */
function covarianceOf(estimates: readonly BendEstimate[], common: Common): Float64Array {
  const size = estimates.length;
  const covariance = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    covariance[i * (size + 1)] = Math.max(estimates[i].bend.uncertaintyMm, leastScatterMm) ** 2;
    for (let j = 0; j < i; j++) {
      const shared = sharedVariance(estimates[i], estimates[j], common, common.sharedAlignment(i, j));
      covariance[i * size + j] = shared;
      covariance[j * size + i] = shared;
    }
  }
  return covariance;
}

/** Readings of two stages have nothing in common; the scatter of the body, the sheet and part of the alignment are the same in both. */
function sharedVariance(
  one: BendEstimate,
  other: BendEstimate,
  { along, buildMm }: Common,
  share: number,
): number {
  const scatterMm2 = Math.max(buildMm, leastScatterMm) ** 2;
  let total = 0;
  for (const a of one.bend.leverage)
    for (const b of other.bend.leverage) {
      const own = sameMetal(a.station, b.station, scatterMm2);
      total += own * (a.perMm[0] * b.perMm[0] + a.perMm[1] * b.perMm[1]);
      if (share > 0)
        total += (share / 2) * (alignedAlike(one, a, b, along) + alignedAlike(other, a, b, along));
    }
  return total;
}

/** Σ of share · share · (b² + u(reference)²) over the points that are in both stations. */
function sameMetal(a: Station, b: Station, scatterMm2: number): number {
  const inB = new Set(b.members.map(({ point }) => point.id));
  const both = a.members.filter(({ point }) => inB.has(point.id));
  const total = both.reduce((sum, { point }) => sum + scatterMm2 + point.uncertaintyMm ** 2, 0);
  return total / a.members.length / b.members.length;
}

/** What a stage's alignment alone does to two stations at once. */
function alignedAlike({ doubt }: BendEstimate, a: StationLeverage, b: StationLeverage, along: Axis): number {
  const [sideways, vertical] = crossAxes[along];
  const shared = doubt.between(a.station.mean, b.station.mean);
  const [x, z] = b.perMm;
  return (
    a.perMm[0] * (shared[sideways][sideways] * x + shared[sideways][vertical] * z) +
    a.perMm[1] * (shared[vertical][sideways] * x + shared[vertical][vertical] * z)
  );
}
