import { lazily } from '../../memory/lazily';
import { Slot } from '../../memory/slot';
import type { Chassis } from '../../model/chassis';
import type { Job, Measure } from '../../model/job';
import type { BaseFit } from '../alignment/control-points';
import { alignedDoubt, type Displacement, type StageDoubt } from '../alignment/displacements';
import { displacementsOf, type JudgedPoint, judgedPoints, unjudgedPoint } from '../alignment/points';
import { instrumentOf, preparedReadings } from '../alignment/prepared';
import { type JudgedSpan, judgedSpans } from '../alignment/spans';
import { type Alignment, alignmentOf, unusable } from '../frame/alignment';
import type { InQuestion } from '../frame/in-question';
import { type Body, bodyOf } from '../shape/body';
import { partInspections } from './part-inspections';
import type { JudgedMeasure, PartInspection } from './stage';
import { tramStage } from './tram';

/** The newest earlier stage with readings, whose alignment one without control points takes over. */
export interface Earlier {
  readonly name: string;
  readonly alignment: Alignment;
}

/** What all measures of a job are judged by. */
interface JobBasis {
  readonly job: Job;
  readonly chassis: Chassis;
  readonly heldBack: boolean;
  /** What the head of the job says about instrument, axes and base, in one text. */
  readonly head: string;
  readonly isTramOnly: boolean;
  /** What the job has in question: it does not testify. */
  readonly question: InQuestion;
}

/** What a measure shows depends on its job and on two things more. */
interface Basis extends JobBasis {
  readonly earlier: Earlier | null;
  /** Then nothing testifies. */
  readonly underTension: boolean;
}

/**
 * What is kept of a basis. Not the job: it holds its other measures as they were then, these would hold the jobs that they were judged in, and so
 * on back to the first edit.
 */
interface KnownBasis extends Pick<Basis, 'chassis' | 'heldBack' | 'head' | 'underTension'> {
  readonly question: string;
  /** Null where the measure took nothing over. */
  readonly earlier: Earlier | null;
}

/** Not `derived`: what an earlier stage was aligned on counts only for a measure that takes it over. */
const known = new Slot<Measure, { basis: KnownBasis; judged: JudgedMeasure }>();

/** What the head of a job decides about every measure, as a text to compare. */
export function headOf(job: Job, isTramOnly: boolean): string {
  const { instrument, axes, base } = job;
  const ids = base.kind === 'ids' ? base.ids.map(({ id }) => id) : base;
  const numbers = instrument && [
    instrument.uncertaintyMm,
    instrument.repeatabilityMm,
    instrument.spanUncertaintyMm,
  ];
  return JSON.stringify([axes, ids, numbers, isTramOnly]);
}

/**
 * One measure judged. The same measure of a file being typed, on the same basis, is not judged a second time: an edit elsewhere
 * in the job leaves it as it is.
 */
export function judgedMeasure(
  of: JobBasis,
  measure: Measure,
  earlier: Earlier | null,
  underTension: boolean,
): JudgedMeasure {
  const last = known.get(measure);
  if (
    last &&
    last.basis.underTension === underTension &&
    isJudgedBy(last.basis, of) &&
    takesOver(last, earlier)
  )
    return last.judged;
  const basis: Basis = { ...of, earlier, underTension };
  const judged = of.isTramOnly
    ? heldBackToo(tramStage(of.job, of.chassis, measure), of.heldBack)
    : alignedMeasure(basis, measure);
  known.set(measure, { basis: keptOf(basis, judged), judged });
  return judged;
}

const keptOf = (
  { chassis, heldBack, head, underTension, question, earlier }: Basis,
  judged: JudgedMeasure,
): KnownBasis => ({
  chassis,
  heldBack,
  head,
  underTension,
  question: question.text,
  earlier: dependsOnEarlier(judged) ? earlier : null,
});

const heldBackToo = (judged: JudgedMeasure, heldBack: boolean): JudgedMeasure =>
  heldBack ? { ...judged, provisional: true } : judged;

const isJudgedBy = (a: KnownBasis, b: JobBasis): boolean =>
  a.chassis === b.chassis && a.heldBack === b.heldBack && a.head === b.head && a.question === b.question.text;

/** Whether it takes over the same as before, where it does. */
const takesOver = (
  { basis, judged }: { readonly basis: KnownBasis; readonly judged: JudgedMeasure },
  earlier: Earlier | null,
): boolean =>
  !dependsOnEarlier(judged) ||
  (basis.earlier?.alignment === earlier?.alignment && basis.earlier?.name === earlier?.name);

/** A measure with control points enough of its own asks nothing of what went before. */
const dependsOnEarlier = ({ alignment }: JudgedMeasure): boolean =>
  alignment !== null &&
  (alignment.inherited !== null || alignment.faults.some(({ kind }) => kind === 'too-few'));

function alignedMeasure(
  { job, chassis, earlier, heldBack, question, underTension }: Basis,
  measure: Measure,
): JudgedMeasure {
  const readings = preparedReadings(job, chassis, measure);
  const spans = judgedSpans(chassis, instrumentOf(job, measure), measure.spans);
  const nothing = { points: [], spans, parts: [], body: null, displacements: [], doubt: null, network: null };
  if (readings.length === 0) return { ...nothing, alignment: null, provisional: heldBack };
  const asked = { job, chassis, readings, question, underTension };
  const alignment = alignmentOf(asked, measure.setUp, earlier);
  const provisional = heldBack || alignment.provisional;
  // mirrored or out of scale: nothing else is concluded, not even the distances
  if (unusable(alignment)) return { ...nothing, alignment, spans: [], provisional };
  const { base, frame } = alignment;
  if (base === null || frame === null)
    return { ...nothing, alignment, provisional, points: readings.map(unjudgedPoint) };
  const displacements = displacementsOf(frame, readings);
  const points = judgedPoints(frame, readings, displacements, alignment.inherited === null);
  // shapes of parts need whole positions
  const whole = displacements.filter(
    (_, i) => points[i].inBase || points[i].deviation.every((d) => d !== null),
  );
  return new AlignedMeasure(chassis, base, {
    alignment,
    provisional,
    points,
    spans,
    displacements: whole,
  });
}

/** A measure with an alignment to use. Shapes are worked out when someone looks at them, not at every key. */
class AlignedMeasure implements JudgedMeasure {
  readonly alignment: Alignment;
  readonly provisional: boolean;
  readonly points: readonly JudgedPoint[];
  readonly spans: readonly JudgedSpan[];
  readonly displacements: readonly Displacement[];
  readonly network = null;
  readonly doubt: StageDoubt;
  private readonly partsAsked: () => readonly PartInspection[];
  private readonly bodyAsked: () => Body | null;

  constructor(
    chassis: Chassis,
    base: BaseFit,
    {
      alignment,
      provisional,
      points,
      spans,
      displacements,
    }: Pick<AlignedMeasure, 'alignment' | 'provisional' | 'points' | 'spans' | 'displacements'>,
  ) {
    this.alignment = alignment;
    this.provisional = provisional;
    this.points = points;
    this.spans = spans;
    this.displacements = displacements;
    const doubt = alignedDoubt(alignment.frame?.doubt ?? base.scatteredMotion);
    this.doubt = doubt;
    this.partsAsked = lazily(() => partInspections(chassis, displacements, doubt, base.motion.centroid));
    this.bodyAsked = lazily(() => {
      const baseXMm = base.members.map((member) => member.reference[0]);
      return bodyOf(displacements, points, doubt, { baseXMm, buildMm: chassis.buildMm });
    });
  }

  get parts(): readonly PartInspection[] {
    return this.partsAsked();
  }
  get body(): Body | null {
    return this.bodyAsked();
  }
}
