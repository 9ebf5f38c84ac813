import type {
  InspectChassis,
  InspectFinding,
  InspectJob,
  InspectPart,
  InspectPoint,
  InspectSpan,
  InspectStage,
  InspectWitnesses,
  InspectZone,
} from '@framewright/schemas';
import type { Finding } from '../../findings/rule/finding';
import { standingOf } from '../../findings/standing';
import type { Vec3 } from '../../geometry/vector';
import { isKnownLength } from '../../inspection/alignment/known-figures';
import { type JudgedPoint, mapAxes } from '../../inspection/alignment/points';
import type { JudgedSpan } from '../../inspection/alignment/spans';
import type { Alignment } from '../../inspection/frame/alignment';
import type { WitnessesSeen } from '../../inspection/frame/witnesses-seen';
import type { SignOffState } from '../../inspection/gate/sign-off';
import type { PartInspection, Stage } from '../../inspection/job/stage';
import { springBack } from '../../inspection/pulls/spring-back';
import type { Zone } from '../../inspection/shape/body';
import type { Angle } from '../../inspection/shape/part-motion';
import { degreesPerRadian } from '../../model/units';
import { type LineTable, linesOf } from '../../text/lines';
import { offsetsOf, type Place } from '../../text/tree';
import type { ChassisAnalysis, JobAnalysis } from '../../workspace/workspace';

/**
 * What `inspect --json` prints, `inspect/1`: lengths mm, angles degrees, vectors forward, left, up in vehicle axes whatever the
 * file's unit; what cannot be observed or judged is null. Described by `schemas/json/inspect.schema.json`.
 */

export function jobJson(analysis: JobAnalysis, path: string): InspectJob {
  const { job, inspection, settings, findings, text } = analysis;
  const lines = linesOf(text);
  return {
    path,
    chassis: job.chassisPath,
    order: job.order,
    closed: job.signOff !== null,
    stages: (inspection?.stages ?? []).map((stage) => stageJson(stage, lines)),
    springBack: inspection
      ? springBack(inspection).map((row) => ({
          ...row,
          recoveryRange: row.recoveryRange && [...row.recoveryRange],
        }))
      : [],
    signOff: inspection ? signOffJson(standingOf({ inspection, settings, findings })) : null,
    findings: analysis.findings.map((finding) => findingJson(finding, lines)),
  };
}

const signOffJson = ({ closed, passes, rule, remaining }: SignOffState): InspectJob['signOff'] => ({
  closed,
  passes,
  rule,
  remaining: [...remaining],
});

export function chassisJson(analysis: ChassisAnalysis, path: string): InspectChassis {
  const { chassis, text, uri } = analysis;
  const lines = linesOf(text);
  return {
    path,
    vehicle: chassis.vehicle || null,
    points: [...chassis.points.values()].map((point) => ({
      id: point.id,
      // an inherited point stands in its parent's file: it counts from the line that takes the parent in
      line: point.origin.uri === uri ? lineOf(point.origin.place, lines) : lineOfExtends(text, lines),
      reference: [...point.reference],
      base: point.base,
      limits: limitsJson(point.limits),
    })),
    findings: analysis.findings.map((finding) => findingJson(finding, lines)),
  };
}

const lineOf = (place: Place, lines: LineTable): number => lines.positionAt(offsetsOf(place).start).line + 1;

const lineOfExtends = (text: string, lines: LineTable): number => {
  const at = text.search(/^extends\s*:/m);
  return at < 0 ? 1 : lines.positionAt(at).line + 1;
};

type Triple<T> = [T, T, T];
const tripleJson = <T>([x, y, z]: readonly [T, T, T]): Triple<T> => [x, y, z];
const limitsJson = (limits: JudgedPoint['point']['limits']): Triple<[number, number]> => [
  [...limits[0]],
  [...limits[1]],
  [...limits[2]],
];

function stageJson(stage: Stage, lines: LineTable): InspectStage {
  return {
    name: stage.name,
    line: lineOf(stage.measure.keyPlace, lines),
    underTension: stage.underTension,
    provisional: stage.provisional,
    alignment: stage.alignment && alignmentJson(stage.alignment),
    points: stage.points.map((point) => pointJson(point, lines)),
    unreachable: stage.unreachable.map((reading) => reading.id),
    asBefore: stage.asBefore.map((reading) => reading.id),
    spans: stage.spans.map((span) => spanJson(span, lines)),
    parts: stage.parts.map(partJson),
    body: stage.body && { front: zoneJson(stage.body.front), rear: zoneJson(stage.body.rear) },
  };
}

function alignmentJson(alignment: Alignment): NonNullable<InspectStage['alignment']> {
  const { rotation, translation } = alignment;
  return {
    base: [...alignment.baseIds],
    moved: [...alignment.movedIds],
    alternatives: alignment.alternatives.map(({ base, moved, kind }) => ({
      base: [...base],
      moved: [...moved],
      kind,
    })),
    inherited: alignment.inherited,
    rms: alignment.rmsMm,
    scale: alignment.scale,
    // too few points, or points in a line, tell nothing of it
    mirrored: alignment.scale === null ? null : alignment.mirrored,
    rotation: rotation && [tripleJson(rotation[0]), tripleJson(rotation[1]), tripleJson(rotation[2])],
    translation: translation && tripleJson(translation),
    ...(alignment.faults.some(({ kind }) => kind === 'doubted') && { doubted: true as const }),
    ...(alignment.witnesses && { witnesses: witnessesJson(alignment.witnesses) }),
  };
}

const witnessesJson = ({ scatterMm, groups }: WitnessesSeen): InspectWitnesses => ({
  scatter: scatterMm,
  groups: groups.map(({ name, ids, weight, off, uncertainty }) => ({
    name,
    points: [...ids],
    weight,
    off: tripleJson(off),
    uncertainty: tripleJson(uncertainty),
  })),
});

function pointJson(judged: JudgedPoint, lines: LineTable): InspectPoint {
  return {
    id: judged.id,
    line: lineOf(judged.reading.key, lines),
    inBase: judged.inBase,
    ...(judged.witness !== undefined && { witness: judged.witness }),
    reference: tripleJson(judged.point.reference),
    measured: judged.measured && tripleJson(judged.measured),
    deviation: tripleJson(judged.deviation),
    uncertainty: tripleJson(judged.uncertainty),
    limits: limitsJson(judged.point.limits),
    conformity: tripleJson(judged.conformity),
    verdict: judged.verdict,
    ...(judged.contradictory && { contradictory: true }),
    ...(judged.best && {
      direction: tripleJson(judged.best.direction),
      directionUncertainty: judged.best.uncertaintyMm,
    }),
  };
}

const spanJson = (span: JudgedSpan, lines: LineTable): InspectSpan => ({
  from: span.from,
  to: span.to,
  line: lineOf(span.reading.place, lines),
  reference: span.referenceMm,
  measured: span.measuredMm,
  deviation: span.deviationMm,
  uncertainty: span.uncertaintyMm,
  limits: [...span.limits],
  conformity: span.conformity,
  verdict: span.verdict,
  ...(span.contradictory && { contradictory: true }),
});

const degrees = (angle: Angle | null): number | null => angle && angle.angleRad * degreesPerRadian;
const degreesUncertainty = (angle: Angle | null): number | null =>
  angle && angle.uncertaintyRad * degreesPerRadian;

/** What is known too badly to be a figure is null, as of a point. */
function shiftJson({ shift, shiftUncertainty }: Pick<PartInspection, 'shift' | 'shiftUncertainty'>) {
  const onlyKnown = (values: Vec3): Triple<number | null> =>
    tripleJson<number | null>(
      mapAxes((k) => (isKnownLength(shift[k], shiftUncertainty[k]) ? values[k] : null)),
    );
  return { shift: onlyKnown(shift), shiftUncertainty: onlyKnown(shiftUncertainty) };
}

function partJson(part: PartInspection): InspectPart {
  const { bend, bow } = part;
  return {
    id: part.part.id,
    ...shiftJson(part),
    yaw: degrees(part.yaw),
    yawUncertainty: degreesUncertainty(part.yaw),
    pitch: degrees(part.pitch),
    pitchUncertainty: degreesUncertainty(part.pitch),
    twist: degrees(part.twist),
    twistUncertainty: degreesUncertainty(part.twist),
    stretch: part.stretch?.mm ?? null,
    stretchUncertainty: part.stretch?.uncertaintyMm ?? null,
    residual: part.residualMm,
    stations: part.stations.map((station) => ({
      at: station.atMm,
      ...shiftJson(station),
      twist: degrees(station.twist),
      twistUncertainty: degreesUncertainty(station.twist),
    })),
    bow: { sideways: bow.sideways?.mm ?? null, vertical: bow.vertical?.mm ?? null },
    bend:
      bend.kind === 'bend'
        ? {
            at: bend.atMm,
            atUncertainty: bend.uncertaintyMm,
            atInterval: [...bend.startsBetweenMm],
            sideways: bend.sidewaysRad * degreesPerRadian,
            sidewaysUncertainty: bend.sidewaysUncertaintyRad * degreesPerRadian,
            vertical: bend.verticalRad * degreesPerRadian,
            verticalUncertainty: bend.verticalUncertaintyRad * degreesPerRadian,
          }
        : null,
  };
}

function zoneJson(zone: Zone | null): InspectZone | null {
  if (zone === null) return null;
  const { length, sideways, height, diamond } = zone;
  return {
    length: length.mm,
    lengthUncertainty: length.uncertaintyMm,
    sideways: sideways.mm,
    sidewaysUncertainty: sideways.uncertaintyMm,
    height: height.mm,
    heightUncertainty: height.uncertaintyMm,
    diamond: diamond.mm,
    diamondUncertainty: diamond.uncertaintyMm,
    twist: degrees(zone.twist),
    twistUncertainty: degreesUncertainty(zone.twist),
    tips: tipsJson(zone.tips),
    conditions: [...zone.conditions],
  };
}

const tipsJson = ({ length, sideways, height, sides }: Zone['tips']): InspectZone['tips'] => {
  const [x, y, z] = sides;
  return {
    length: length.mm,
    lengthUncertainty: length.uncertaintyMm,
    sideways: sideways.mm,
    sidewaysUncertainty: sideways.uncertaintyMm,
    height: height.mm,
    heightUncertainty: height.uncertaintyMm,
    left: [x.left.mm, y.left.mm, z.left.mm],
    leftUncertainty: [x.left.uncertaintyMm, y.left.uncertaintyMm, z.left.uncertaintyMm],
    right: [x.right.mm, y.right.mm, z.right.mm],
    rightUncertainty: [x.right.uncertaintyMm, y.right.uncertaintyMm, z.right.uncertaintyMm],
  };
};

function findingJson(finding: Finding, lines: LineTable): InspectFinding {
  return {
    rule: finding.rule,
    severity: finding.severity,
    message: finding.message,
    ignored: finding.ignored,
    range: { start: lines.positionAt(finding.range.start), end: lines.positionAt(finding.range.end) },
  };
}
