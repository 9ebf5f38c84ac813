import type { TextRange } from '../../findings/rule/finding';
import { standingOf } from '../../findings/standing';
import { adviceInStage, stageToExtend } from '../../inspection/advice/job-advice';
import type { JudgedPoint } from '../../inspection/alignment/points';
import { unusable } from '../../inspection/frame/alignment';
import type { Inspection } from '../../inspection/job/inspect';
import { isEmpty, type PartInspection, type Stage } from '../../inspection/job/stage';
import { crossAxes, hasTwoLevels, type Station } from '../../inspection/shape/stations';
import type { Part } from '../../model/chassis';
import { lengthFigure, type Unit, unitWord } from '../../model/units';
import { entryOf, offsetsOf, textOf } from '../../text/tree';
import { readingsPhrase } from '../../wording/advice-words';
import { placeText } from '../../wording/places';
import { summaryParts } from '../../wording/summaries';
import { showsAngle, stationTwistText } from '../../wording/twist-wording';
import { certaintyText, directionWord, offPhrase, shortList, sideWord } from '../../wording/wording';
import { worstCertainty, worstPoint } from '../../wording/worst';
import type { Analysis, ChassisAnalysis, JobAnalysis } from '../../workspace/workspace';
import type { ShowingCommand } from '../actions/code-action';
import { newestRead } from './newest-read';

/** A line above a line of the file. What is dear to say is said when it comes into view. */
export interface Lens {
  readonly range: TextRange;
  readonly about:
    | { readonly kind: 'stage'; readonly index: number }
    | { readonly kind: 'part'; readonly index: number; readonly id: string }
    | { readonly kind: 'point'; readonly name: string }
    | { readonly kind: 'sign-off' };
}

/** What a lens says, and what is shown where somebody follows it: a command of the editor's side. */
export interface LensWords {
  readonly title: string;
  readonly leads: { readonly command: ShowingCommand; readonly with: readonly string[] } | null;
}

/**
 * Above each measure what it is based on and shows; in the newest that has readings, above a part's first row, how it is twisted and swept; above a
 * point of a chassis, in how many jobs it was out.
 */
export function lensesOf(analysis: Analysis, shows: ReadonlySet<string>): Lens[] {
  if (analysis.kind === 'readings') {
    if (analysis.inspection === null) return [];
    return [
      ...(shows.has('framewright.signOff') ? [signOffLens(analysis)] : []),
      ...jobLenses(analysis.inspection),
    ];
  }
  return analysis.kind === 'chassis' ? pointLenses(analysis) : [];
}

function jobLenses(inspection: Inspection): Lens[] {
  const { stages } = inspection;
  const ofStages = stages.map(
    (stage): Lens => ({
      range: offsetsOf(stage.measure.keyPlace),
      about: { kind: 'stage', index: stage.index },
    }),
  );
  const newest = newestRead(stages);
  if (!newest) return ofStages;
  const parts = new Set(summaryParts(inspection, newest, 'twist'));
  const ofParts: Lens[] = [];
  for (const { point, reading } of newest.points) {
    if (point.part === null || !parts.delete(point.part)) continue;
    ofParts.push({
      range: offsetsOf(reading.key),
      about: { kind: 'part', index: newest.index, id: point.part },
    });
  }
  return [...ofStages, ...ofParts];
}

/** Above the order, where a person looks for where a job stands. */
const signOffLens = ({ job }: JobAnalysis): Lens => ({
  range: offsetsOf(job.orderPlace ?? job.head),
  about: { kind: 'sign-off' },
});

function pointLenses({ tree }: ChassisAnalysis): Lens[] {
  const points = entryOf(tree.root, 'points')?.value;
  if (points?.kind !== 'map') return [];
  return points.entries.map(({ key }) => ({
    range: offsetsOf(key.place),
    about: { kind: 'point', name: textOf(key) },
  }));
}

/** The words of a lens of a job; null where what it was about is gone. */
export function lensWords(analysis: JobAnalysis, about: Lens['about']): LensWords | null {
  const { inspection } = analysis;
  if (inspection === null || about.kind === 'point') return null;
  if (about.kind === 'sign-off')
    return { title: signOffText(analysis, inspection), leads: { command: 'framewright.signOff', with: [] } };
  const stage = inspection.stages.find(({ index }) => index === about.index);
  if (!stage) return null;
  if (about.kind === 'stage') return { title: stageText(inspection, stage), leads: drawingOf(stage.points) };
  const part = stage.parts.find((each) => each.part.id === about.id);
  return part === undefined
    ? null
    : {
        title: partText(part, stage, inspection.job.unit),
        leads: drawingOf(stage.points.filter(({ point }) => point.part === about.id)),
      };
}

/** The drawing, with the worst of some points chosen. */
function drawingOf(points: readonly JudgedPoint[]): LensWords['leads'] {
  const worst = worstPoint(points);
  return { command: 'framewright.showDrawing', with: worst === null ? [] : [worst.judged.id] };
}

function signOffText({ settings, findings }: JobAnalysis, inspection: Inspection): string {
  const { closed, passes, remaining, heldBack } = standingOf({ inspection, settings, findings });
  if (heldBack) return 'nothing is judged until the text is corrected';
  if (passes) return closed ? 'signed off' : 'nothing stands against the sign-off';
  const things = remaining.length === 1 ? '1 thing stands' : `${remaining.length} things stand`;
  return `${closed ? 'signed off, but ' : ''}${things} against the sign-off`;
}

/** Where a part is twisted and swept most; the rest is in its summaries. */
function partText({ part, stations }: PartInspection, stage: Stage, unit: Unit): string {
  const notes = [...(stage.underTension ? ['peak'] : []), ...(stage.provisional ? ['provisional'] : [])];
  const note = notes.length === 0 ? '' : ` (${notes.join(', ')})`;
  return `${part.id}${note}: ${twistText(stations, part, unit)} · ${sweepText(stations, part, unit)}`;
}

function twistText(stations: readonly Station[], part: Part, unit: Unit): string {
  const { along } = part;
  const twisted = stations.flatMap(({ twist, atMm }) => (twist === null ? [] : [{ twist, atMm }]));
  if (twisted.length === 0)
    return stations.some((station) => hasTwoLevels(station, along))
      ? 'twist not known'
      : 'twist cannot be observed';
  const most = twisted.reduce((a, b) => (Math.abs(b.twist.angleRad) > Math.abs(a.twist.angleRad) ? b : a));
  const place = showsAngle(most.twist.angleRad) ? ` at ${placeText(most.atMm, part, unit)}` : '';
  return `twist ${stationTwistText(most.twist, along)}${place}`;
}

function sweepText(stations: readonly Station[], part: Part, unit: Unit): string {
  const { along, side } = part;
  const swept = stations.flatMap(({ shift, shiftUncertainty, atMm }) =>
    crossAxes[along].map((axis) => ({ axis, mm: shift[axis], uncertaintyMm: shiftUncertainty[axis], atMm })),
  );
  const most = swept.reduce((a, b) => (Math.abs(b.mm) > Math.abs(a.mm) ? b : a));
  const size = lengthFigure(Math.abs(most.mm), unit);
  const way =
    Number(size) === 0
      ? ''
      : ` ${sideWord(most.axis, most.mm, side) ?? directionWord(most.axis, most.mm)} at ${placeText(most.atMm, part, unit)}`;
  return `sweep ${size} ${certaintyText(most.uncertaintyMm, unit)} ${unitWord[unit]}${way}`;
}

function stageText(inspection: Inspection, stage: Stage): string {
  const notes = [...(stage.underTension ? ['peaks'] : []), ...(stage.provisional ? ['provisional'] : [])];
  return [
    ...notes,
    baseText(stage),
    ...counts(stage),
    ...worstText(inspection, stage),
    ...adviceText(inspection, stage),
  ].join(' · ');
}

/** Before anything is read, and where the base is weak for what the job is about: what to read. */
function adviceText(inspection: Inspection, stage: Stage): string[] {
  if (stage !== stageToExtend(inspection)) return [];
  const advice = adviceInStage(stage, inspection);
  if (typeof advice === 'string' || advice.steps.length === 0) return [];
  return [`${advice.now === null ? 'read first' : 'weak, read'} ${readingsPhrase(advice.steps)}`];
}

function baseText(stage: Stage): string {
  const { alignment, network } = stage;
  if (isEmpty(stage)) return 'nothing to judge yet';
  if (network) return 'distances only, one network';
  if (alignment === null) return 'distances only';
  if (unusable(alignment)) return 'nothing concluded: mirrored or out of scale';
  if (alignment.base === null) return 'no alignment';
  if (alignment.inherited !== null) return `alignment of "${alignment.inherited}"`;
  const moved = alignment.movedIds.length === 0 ? '' : `, without ${shortList(alignment.movedIds, 3)}`;
  return `base of ${alignment.baseIds.length} points${moved}`;
}

const verdicts = ['within', 'outside', 'undecided', 'unjudged'] as const;

function counts({ points, spans }: Stage): string[] {
  const count = (verdict: string): number =>
    [...points, ...spans].filter((each) => each.verdict === verdict).length;
  const told = verdicts
    .filter((verdict) => count(verdict) > 0)
    .map((verdict) => `${count(verdict)} ${verdict}`);
  return told.length === 0 ? [] : [told.join(', ')];
}

function worstText({ job }: Inspection, { points }: Stage): string[] {
  const worst = worstPoint(points);
  return worst === null
    ? []
    : [
        `worst ${worst.judged.id}: ${offPhrase(worst.axis, worst.deviation, worst.judged.point.side, job.unit)}${worstCertainty(worst, job.unit)}`,
      ];
}
