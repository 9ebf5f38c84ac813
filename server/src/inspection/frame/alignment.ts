import type { JudgingVersion } from '@framewright/schemas';
import { similarityOf } from '../../geometry/rigid-motion';
import type { Mat3, Vec3 } from '../../geometry/vector';
import type { Chassis } from '../../model/chassis';
import type { Measure } from '../../model/job';
import { resolvedJob } from '../../model/resolve/resolved-job';
import type { Carried } from '../alignment/carried';
import {
  type BaseFit,
  baseFit,
  type Candidate,
  collinear,
  memberAgrees,
  onOneLine,
  unchecked,
  weightOf,
} from '../alignment/control-points';
import { frameOfBase, type JudgingFrame } from '../alignment/judging-frame';
import type { PreparedReading } from '../alignment/prepared';
import type { AlignmentFault, Alternative } from './alignment-fault';
import { frameOfJoined } from './joined-frame';
import { type Searched, searched } from './searched';
import { toldAlternatives } from './told-alternatives';
import { type BaseQuestion, frameAround, storiesOfBase } from './told-base';
import { type WitnessesSeen, witnessesSeen } from './witnesses-seen';

/**
 * The motion from the instrument's frame to vehicle axes for one stage, and how far it can be trusted
 * (server/README.md, "Alignment"). Sources: Arun, Huang & Blostein 1987; Umeyama 1991.
 */
export interface Alignment {
  readonly baseIds: readonly string[];
  readonly movedIds: readonly string[];
  readonly alternatives: readonly Alternative[];
  /** The stage whose alignment this is, where it is not this one's own. */
  readonly inherited: string | null;
  /** What became of one that was taken over; null for the stage's own. */
  readonly carried: Carried | null;
  readonly rmsMm: number | null;
  readonly scale: number | null;
  readonly mirrored: boolean;
  /** measured in vehicle axes = rotation · reading + translation (mm); null where there is none to use. */
  readonly rotation: Mat3 | null;
  readonly translation: Vec3 | null;
  /** The control points' own fit; null where there is none to use. */
  readonly base: BaseFit | null;
  /** By what the points of the stage are judged: the base by itself, or joined with its witnesses. Null without a base. */
  readonly frame: JudgingFrame | null;
  /** What stands around the base, where that helps to align. */
  readonly witnesses: WitnessesSeen | null;
  readonly faults: readonly AlignmentFault[];
  /** Not to be relied on until the technician decides. */
  readonly provisional: boolean;
  /** The first version by which it is; null where it is not. */
  readonly provisionalSince: JudgingVersion | null;
}

/** Nothing else about such a stage is concluded. */
export const unusable = (alignment: Alignment | null): boolean =>
  alignment?.faults.some((fault) => fault.kind === 'mirrored' || fault.kind === 'scale') ?? false;

const wrongScales = [25.4, 1 / 25.4, 10, 1 / 10, 1000, 1 / 1000];
/** How much the third direction must contribute before a reflection is believed, mm² mean square. */
const realThirdDirection = 50 ** 2;

const nothing: Omit<Alignment, 'faults'> = {
  baseIds: [],
  movedIds: [],
  alternatives: [],
  inherited: null,
  carried: null,
  rmsMm: null,
  scale: null,
  mirrored: false,
  rotation: null,
  translation: null,
  base: null,
  frame: null,
  witnesses: null,
  provisional: false,
  provisionalSince: null,
};

const candidateOf = (chassis: Chassis, reading: PreparedReading): Candidate => ({
  id: reading.id,
  measured: reading.measured,
  reference: reading.point.reference,
  limits: reading.point.limits,
  variance: controlVariance(chassis, reading),
});

/** u² of a control point: of its reading and its reference, and how far sound cars scatter, mm². */
const controlVariance = ({ buildMm }: Chassis, { point, variance }: PreparedReading): number =>
  variance + point.uncertaintyMm ** 2 + buildMm ** 2;

/**
 * The alignment of one stage.
 * @param earlier the newest earlier stage with readings: its name and alignment, which a stage without control points takes over
 */
export function alignmentOf(
  asked: BaseQuestion,
  setUp: Measure['setUp'],
  earlier: { name: string; alignment: Alignment } | null,
): Alignment {
  const { job, chassis, readings } = asked;
  const { controlIds } = resolvedJob(job, chassis);
  const control = readings.filter(({ id }) => controlIds.has(id));
  const mayInherit = setUp !== 'new' && (control.length === 0 || (control.length < 3 && setUp === 'same'));
  if (mayInherit && earlier !== null && earlier.alignment.base !== null)
    return takenOver(earlier.name, earlier.alignment);
  const ids = control.map((reading) => reading.id);
  if (control.length < 3)
    return {
      ...nothing,
      baseIds: ids,
      faults: [{ kind: 'too-few', count: control.length, setUpNew: setUp === 'new' }],
    };

  const candidates = control.map((reading) => candidateOf(chassis, reading));
  if (collinear(candidates.map((candidate) => candidate.reference)))
    return { ...nothing, baseIds: ids, faults: [{ kind: 'collinear', ids, asRead: false }] };
  const measured = candidates.map((candidate) => candidate.measured);
  const asReadOnLine: Alignment = {
    ...nothing,
    baseIds: ids,
    faults: [{ kind: 'collinear', ids, asRead: true }],
  };

  const all = baseFit(candidates);
  // not a number where they were all read at one place
  const scale = all.fit.scale > 0 ? all.fit.scale : null;
  if (scale !== null && onOneLine(measured)) return asReadOnLine;
  const mirrored = scale !== null && measuredInMirror(chassis, readings);
  // a reflection alone lowers the fitted scale, so it must be far off before both are said
  const scaleFault = mirrored && Math.abs(Math.log(scale)) < 1 ? null : scaleFaultOf(candidates, scale);
  if (scale === null || mirrored || scaleFault !== null) {
    const faults: AlignmentFault[] = [
      ...(mirrored ? [{ kind: 'mirrored' } as const] : []),
      ...(scaleFault ? [scaleFault] : []),
    ];
    return { ...nothing, baseIds: ids, scale, mirrored, rmsMm: all.fit.rms, faults };
  }
  // after the scale: what was read in metres lies within millimetres
  if (collinear(measured)) return asReadOnLine;
  return finished(job.base.kind === 'ids' ? asGiven(all, asked) : searched(candidates, asked), scale);
}

function takenOver(name: string, alignment: Alignment): Alignment {
  return { ...alignment, inherited: alignment.inherited ?? name, faults: [] };
}

/**
 * Judged on all measured points: symmetric pairs are coplanar, and a coplanar set cannot tell. Where it hangs on one reading (a
 * lost sign can turn a body that is nearly flat) and the others clearly say otherwise, it is that reading's fault.
 */
function measuredInMirror(chassis: Chassis, readings: readonly PreparedReading[]): boolean {
  if (readings.length < 4) return false;
  if (handedness(chassis, readings) !== 'mirrored') return false;
  return (
    readings.length < 5 || !withoutEach(readings).some((others) => handedness(chassis, others) === 'straight')
  );
}

function handedness(
  chassis: Chassis,
  readings: readonly PreparedReading[],
): 'mirrored' | 'straight' | 'flat' {
  const { reflected, singularValues } = similarityOf(
    readings.map((each) => each.measured),
    readings.map((each) => each.point.reference),
    readings.map((each) => weightOf(controlVariance(chassis, each))),
  );
  if (singularValues[2] <= realThirdDirection) return 'flat';
  return reflected ? 'mirrored' : 'straight';
}

const scaleOf = (candidates: readonly Candidate[]): number =>
  similarityOf(
    candidates.map((each) => each.measured),
    candidates.map((each) => each.reference),
    candidates.map((each) => weightOf(each.variance)),
  ).scale;

const withoutEach = <T>(items: readonly T[]): T[][] => items.map((_, i) => items.filter((_, j) => j !== i));

const scaleIsRight = (scale: number): boolean => Math.abs(scale - 1) <= 0.05;

/** A wrong unit stretches every distance: where leaving one point out puts it right, that point was misread instead. */
function scaleFaultOf(candidates: readonly Candidate[], scale: number | null): AlignmentFault | null {
  if (scale === null) return { kind: 'scale', scale, nearest: 1 };
  if (scaleIsRight(scale)) return null;
  if (candidates.length > 3 && withoutEach(candidates).some((others) => scaleIsRight(scaleOf(others))))
    return null;
  const off = (factor: number) => Math.abs(Math.log(scale / factor));
  const nearest = [...wrongScales].sort((a, b) => off(a) - off(b))[0];
  return { kind: 'scale', scale, nearest };
}

function asGiven(base: BaseFit, asked: BaseQuestion): Searched {
  const failing = base.members.filter((_, i) => !memberAgrees(base, i)).map((member) => member.id);
  const around = frameAround(base, asked, true);
  const stories = toldAlternatives(
    { base, movedIds: [] },
    around === null ? [] : storiesOfBase(around, asked),
  );
  const single = stories.length > 0 && stories[0].moved.length === 1 ? stories[0].moved : [];
  const moved = [...failing, ...single.filter((id) => !failing.includes(id))];
  const faults: AlignmentFault[] = moved.length > 0 ? [{ kind: 'moved', ids: moved, kept: true }] : [];
  if (stories.length > 0 && single.length === 0) faults.push({ kind: 'list-contradicts', stories });
  return { base, movedIds: [], alternatives: [], faults, provisionalSince: null, around: null };
}

function finished({ base, around, faults, ...known }: Searched, scale: number): Alignment {
  const positions = base.members.map((member) => member.reference);
  const joined = around === null ? null : frameOfJoined(around, base);
  const frame = joined ?? frameOfBase(base);
  return {
    ...known,
    provisional: known.provisionalSince !== null,
    baseIds: base.members.map((member) => member.id),
    inherited: null,
    carried: null,
    rmsMm: base.fit.rms,
    scale,
    mirrored: false,
    rotation: frame.rotation,
    translation: frame.translation,
    base,
    frame,
    witnesses: joined && around && witnessesSeen(around),
    faults: unchecked(positions)
      ? [...faults, { kind: 'unchecked', why: positions.length <= 3 ? 'three' : 'plane' }]
      : faults,
  };
}
