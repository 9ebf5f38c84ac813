import { type BrokenLine, Offsets } from '../../geometry/broken-line';
import { chiSquareQuantile } from '../../geometry/distributions';
import type { Part } from '../../model/chassis';
import type { StageDoubt } from '../alignment/displacements';
import { isKnownAngle, isKnownLength } from '../alignment/known-figures';
import { bendStartInterval } from './bend-interval';
import { crossAxes, type Station } from './stations';

/**
 * Where along a part the bend starts (server/README.md, "Where the bend starts"). Source: Hudson 1966.
 * Away from the base the part is straight up to the bend and leans off steadily beyond it.
 */
export type Bend =
  | (BendPlace & {
      readonly kind: 'bend';
      /** Change of course going away from the base, rad: + left and + up (the two cross axes in the order forward, left, up). */
      readonly sidewaysRad: number;
      readonly sidewaysUncertaintyRad: number;
      readonly verticalRad: number;
      readonly verticalUncertaintyRad: number;
      readonly leverage: readonly StationLeverage[];
    })
  | { readonly kind: 'none' | 'several' | 'too-few-stations'; readonly away: 1 | -1 };

/** Where a bend starts, whatever it was told from. */
export interface BendPlace {
  /** Where its two straight courses meet: reference coordinate along the part, mm. */
  readonly atMm: number;
  readonly uncertaintyMm: number;
  /** 95 % interval of where the metal begins to bend, lower end first, mm along the part: a hinge has a length of its own. */
  readonly startsBetweenMm: readonly [number, number];
  /** What the readings alone say is straight, mm along the part: h − 2u(h) on the base's side. Cuts are judged by it. */
  readonly straightToMm: number;
  /** Where a hold stands on straight metal, the hinge counted in: the base's end of the interval, at h − 2u(h) or nearer the base. */
  readonly holdToMm: number;
  /** +1 where going away from the base counts up, else −1. */
  readonly away: 1 | -1;
}

/** By how much the corner moves with the mean shift of a station, mm per mm: sideways and vertical; so large that they make up u(h). */
export interface StationLeverage {
  readonly station: Station;
  readonly perMm: readonly [number, number];
}

/** No part is straighter than this: a covariance of nothing but the alignment's share would be singular. */
export const leastScatterMm = 0.01;

/**
 * @param buildMm how far points of a sound body scatter, standard
 * @param baseAlongMm where the base stands on the part's axis, mm
 */
export function bendOf(
  part: Part,
  stations: readonly Station[],
  doubt: StageDoubt,
  buildMm: number,
  baseAlongMm: number,
): Bend {
  const middle = stations.reduce((total, station) => total + station.atMm, 0) / Math.max(1, stations.length);
  const usual: 1 | -1 = middle >= baseAlongMm ? 1 : -1;
  if (stations.length < 3) return { kind: 'too-few-stations', away: usual };
  const seen: Seen = { part, stations, doubt, buildMm };
  const declared = declaredIn(seen, usual);
  let fit: BrokenLine;
  let away = usual;
  if (typeof declared !== 'string') fit = declared;
  else {
    const behind = declaredBehind(seen, usual, baseAlongMm);
    if (behind === null) return { kind: declared, away: usual };
    fit = behind;
    away = usual === 1 ? -1 : 1;
  }
  const slope = ([k, u]: [number, number]) => [Math.atan(k), u / (1 + k ** 2)] as const;
  const [sidewaysRad, sidewaysUncertaintyRad] = slope([fit.slopes[0], fit.slopeUncertainties[0]]);
  const [verticalRad, verticalUncertaintyRad] = slope([fit.slopes[1], fit.slopeUncertainties[1]]);
  const isKnown =
    isKnownAngle(sidewaysRad, sidewaysUncertaintyRad) &&
    isKnownAngle(verticalRad, verticalUncertaintyRad) &&
    isKnownLength(fit.breakAt, fit.breakUncertainty);
  if (!isKnown) return { kind: 'none', away };
  return {
    kind: 'bend',
    ...bendPlace(away, away * fit.breakAt, fit.breakUncertainty),
    sidewaysRad,
    sidewaysUncertaintyRad,
    verticalRad,
    verticalUncertaintyRad,
    leverage: leverageOf(fit, inOrder(stations, away), away),
  };
}

/** @param atMm along the part; @param uncertaintyMm u(h), standard */
export function bendPlace(away: 1 | -1, atMm: number, uncertaintyMm: number): BendPlace {
  const [nearer, farther] = bendStartInterval(away * atMm, uncertaintyMm);
  return {
    atMm,
    uncertaintyMm,
    startsBetweenMm: away === 1 ? [nearer, farther] : [-farther, -nearer],
    straightToMm: atMm - away * 2 * uncertaintyMm,
    holdToMm: away * nearer,
    away,
  };
}

function leverageOf(fit: BrokenLine, stations: readonly Station[], away: 1 | -1): StationLeverage[] {
  const factor = (away * fit.breakUncertainty) / fit.linearisedBreakUncertainty;
  return stations.map((station, i) => ({
    station,
    perMm: [factor * fit.breakGain[2 * i], factor * fit.breakGain[2 * i + 1]],
  }));
}

const inOrder = (stations: readonly Station[], away: 1 | -1): readonly Station[] =>
  away === 1 ? stations : [...stations].reverse();

/** What of a part its bend is looked for in. */
interface Seen {
  readonly part: Part;
  readonly stations: readonly Station[];
  readonly doubt: StageDoubt;
  readonly buildMm: number;
}

/** The shifts in the order away from the base, and how certain they are. */
function offsetsOf({ part, stations, doubt, buildMm }: Seen, away: 1 | -1): Offsets {
  const ordered = inOrder(stations, away);
  const [sideways, vertical] = crossAxes[part.along];
  return new Offsets(
    ordered.map((station) => away * station.atMm),
    ordered.map((station): [number, number] => [station.shift[sideways], station.shift[vertical]]),
    stationCovariance(part, ordered, doubt, buildMm),
  );
}

/**
 * A bend is believed only where a straight part cannot explain the shifts, a bend does, and nothing is left over. The search for it is
 * the dear part: it is left undone where no bend that it could find would be believed.
 */
function declaredIn(seen: Seen, away: 1 | -1): BrokenLine | 'none' | 'several' {
  const offsets = offsetsOf(seen, away);
  const stations = seen.stations.length;
  const needed = chiSquareQuantile(0.95, 3);
  if (!(offsets.chiSquareZero > needed)) return 'none';
  if (!(offsets.chiSquareStraight > chiSquareQuantile(0.95, 2 * stations - 4))) return 'none';
  const fit = offsets.brokenLine();
  if (fit === null || !(offsets.chiSquareZero - fit.chiSquare > needed)) return 'none';
  return fit.chiSquare < chiSquareQuantile(0.99, 2 * stations - 3) ? fit : 'several';
}

/** Of a part that runs past the base its other end may be bent: a bend towards that end, beyond the base. */
function declaredBehind(seen: Seen, usual: 1 | -1, baseAlongMm: number): BrokenLine | null {
  const away = usual === 1 ? -1 : 1;
  if (!seen.stations.some(({ atMm }) => away * (atMm - baseAlongMm) > 0)) return null;
  const found = declaredIn(seen, away);
  return typeof found !== 'string' && found.breakAt > away * baseAlongMm ? found : null;
}

/** Cov of the station means on the two cross axes, station by station, with the build scatter of a sound part, mm², row after row. */
function stationCovariance(
  part: Part,
  stations: readonly Station[],
  doubt: StageDoubt,
  buildMm: number,
): Float64Array {
  const [sideways, vertical] = crossAxes[part.along];
  const scatterMm = Math.max(buildMm, leastScatterMm);
  const size = 2 * stations.length;
  const covariance = new Float64Array(size * size);
  for (let i = 0; i < stations.length; i++) {
    for (let j = i; j < stations.length; j++) {
      const block = doubt.between(stations[i].mean, stations[j].mean);
      const at = 2 * i * size + 2 * j;
      covariance[at] = block[sideways][sideways];
      covariance[at + 1] = block[sideways][vertical];
      covariance[at + size] = block[vertical][sideways];
      covariance[at + size + 1] = block[vertical][vertical];
    }
    const own = 2 * i * (size + 1);
    const build = scatterMm ** 2 / stations[i].members.length;
    covariance[own] += build;
    covariance[own + size + 1] += build;
  }
  for (let row = 1; row < size; row++)
    for (let column = 0; column < row; column++)
      covariance[row * size + column] = covariance[column * size + row];
  return covariance;
}
