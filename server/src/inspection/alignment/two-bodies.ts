import { chiSquareQuantile, fQuantile } from '../../geometry/distributions';
import {
  type BaseFit,
  type Candidate,
  type Choice,
  collinear,
  consistentFit,
  type Fitted,
  fitted,
  rivalChiSquare,
  tolerantChiSquare,
} from './control-points';
import { stationLengthMm } from './station-length';

/**
 * Whether the control points are two bodies one behind the other rather than one (server/README.md, "Control points"). A zone that was
 * lifted or pushed aside as a whole looks like pitch or yaw of the instrument once a few of its points are left out, so that the
 * largest set whose members agree may be a mixture of both bodies. Sources: Fisher's F-test of additional parameters, as in Draper &
 * Smith 1998.
 */

/**
 * How often a body that is one may be called two. With none left out, by χ² where it scatters as stated, and by F whatever it scatters:
 * both must be passed. With one left out, by χ²: something moved either way.
 */
const falseAlarms = { soundByChiSquare: 0.01, soundByF: 0.2, oneLeftOut: 0.1 } as const;
/** Coordinates that a rigid motion takes up, and that a point which was left out takes up. */
const [ofMotion, ofPoint] = [6, 3];
const fewest = 3;

interface Zones {
  readonly rear: readonly Candidate[];
  readonly front: readonly Candidate[];
}

/**
 * The two zones as rival bases where they explain the readings as well as `choice` does; empty where they do not.
 * @param candidates all of which `choice` is the largest set that agrees
 */
export function rivalZones(candidates: readonly Candidate[], choice: Choice): BaseFit[] {
  if (!choice.consistent || !mayBeTwo(choice)) return [];
  const splits = zonesAlongLength(candidates);
  let best: BaseFit[] = [];
  for (const { rear, front } of splits) {
    // what they gain is asked first: seldom enough, and cheaper than whether each agrees within itself
    if (!explainAsWell([fitted(rear), fitted(front)], choice, candidates.length, splits.length)) continue;
    const bodies = [rear, front].flatMap((zone) => consistentFit(zone) ?? []);
    if (bodies.length < 2) continue;
    if (best.length === 0 || chiSquareOf(bodies) < chiSquareOf(best)) best = bodies;
  }
  return best;
}

/** Two bodies gain no more than all that one leaves, and must gain the least where there is one cut alone. */
function mayBeTwo({ base, movedIds }: Choice): boolean {
  const leftOut = movedIds.length;
  if (leftOut >= 2) return true;
  const falseAlarm = leftOut === 1 ? falseAlarms.oneLeftOut : falseAlarms.soundByChiSquare;
  return base.fit.chiSquare > chiSquareQuantile(1 - falseAlarm, ofMotion - ofPoint * leftOut);
}

const chiSquareOf = (bodies: readonly Fitted[]): number =>
  bodies.reduce((total, { fit }) => total + fit.chiSquare, 0);

/** Every cut across the length that leaves enough points on both sides, each in the order of ids. Those of one station stay together. */
function zonesAlongLength(candidates: readonly Candidate[]): Zones[] {
  const byId = [...candidates].sort((a, b) => (a.id < b.id ? -1 : 1));
  const lengths = Float64Array.from(byId, ({ reference }) => reference[0]).sort();
  const zones: Zones[] = [];
  for (let i = fewest; i <= lengths.length - fewest; i++) {
    if (lengths[i] - lengths[i - 1] <= stationLengthMm) continue;
    const rear = byId.filter(({ reference }) => reference[0] < lengths[i]);
    const front = byId.filter(({ reference }) => reference[0] >= lengths[i]);
    if (isZone(rear) && isZone(front)) zones.push({ rear, front });
  }
  return zones;
}

const isZone = (points: readonly Candidate[]): boolean =>
  !collinear(points.map(({ reference }) => reference));

/**
 * One body with d points left out takes up 6 + 3d coordinates, two bodies take up 12. From two points on the two bodies need no more
 * than that, and have only to fit about as well. Below, what they fit better by must be more than chance by χ² with the stated
 * scatter, or readings far better than stated would be torn apart over hundredths of a millimetre. Before a body of which every point
 * agrees is called two, F is asked as well, which does not depend on how far bodies scatter, as that is an assumption. F alone would be weak:
 * of three and three points it has six degrees of freedom to tell scatter by. The chance is shared among all cuts that were tried.
 */
function explainAsWell(
  bodies: readonly Fitted[],
  { base, movedIds }: Choice,
  count: number,
  cuts: number,
): boolean {
  const leftOut = movedIds.length;
  if (leftOut >= 2)
    return Math.min(...bodies.map(tolerantChiSquare)) <= tolerantChiSquare(base) + rivalChiSquare;
  const additional = ofMotion - ofPoint * leftOut;
  const remaining = 3 * count - 2 * ofMotion;
  const unexplained = chiSquareOf(bodies);
  const gain = base.fit.chiSquare - unexplained;
  const byChiSquare = (falseAlarm: number) => gain > chiSquareQuantile(1 - falseAlarm / cuts, additional);
  const byF = (falseAlarm: number) =>
    gain / additional > (fQuantile(1 - falseAlarm / cuts, additional, remaining) * unexplained) / remaining;
  return leftOut === 1
    ? byChiSquare(falseAlarms.oneLeftOut)
    : byChiSquare(falseAlarms.soundByChiSquare) && byF(falseAlarms.soundByF);
}
