import type { Inspection } from '../../inspection/job/inspect';
import { reads } from '../../inspection/job/readings-by-id';
import type { Stage } from '../../inspection/job/stage';
import type { Measure, Reading } from '../../model/job';
import { idsNamed } from '../../model/names';
import type { NamedPlace } from '../../model/resolve/job-mentions';
import { offsetsOf, type Place } from '../../text/tree';
import type { Analysis, JobAnalysis } from '../../workspace/workspace';
import { mentionsOf } from '../mentions';
import { contains, onFirstLine, pathAt } from '../places';
import { keyHover } from './hover-key';
import { partHover } from './hover-part';
import { pointHover, referenceHover, spanHover } from './hover-point';
import { pullHover } from './hover-pull';
import { scopeAdvice } from './hover-scope';
import { orderHover, stageHover, witnessLines } from './hover-stage';
import { type HoverText, toldAt } from './hover-text';
import { escaped } from './markdown';

/** What to show at an offset of a file; null where there is nothing to say. */
export function hoverAt(analysis: Analysis, offset: number): HoverText | null {
  return (
    (analysis.kind === 'readings' ? jobHover(analysis, offset) : null) ??
    mentionHover(analysis, offset) ??
    keyHoverOf(analysis, offset)
  );
}

/** Below what a key means, what it says here: `scope` what to read, and `base` and `scope`, which decide who may testify, what came of it. */
function keyHoverOf(analysis: Analysis, offset: number): HoverText | null {
  const hover = keyHover(analysis, offset);
  if (hover === null || analysis.kind !== 'readings' || analysis.inspection === null) return hover;
  const { path, key } = pathAt(analysis.tree.root, offset);
  if (key === null || path.length !== 1) return hover;
  const { inspection } = analysis;
  const said = [
    ...(path[0] === 'scope' ? [scopeAdvice(inspection)] : []),
    ...(path[0] === 'scope' || path[0] === 'base' ? [testimony(inspection)] : []),
  ];
  return { ...hover, markdown: hover.markdown + said.join('') };
}

/** Who testified in the newest stage with an alignment of its own; '' where nobody did. */
function testimony(inspection: Inspection): string {
  const stage = inspection.stages.findLast(({ alignment }) => alignment?.inherited === null);
  const lines = stage?.alignment ? witnessLines(inspection, stage.alignment) : [];
  return stage === undefined || lines.length === 0
    ? ''
    : ['', '', `In **${escaped(stage.name)}**:`, '', ...lines].join('\n');
}

const at = (markdown: string, place: Place): HoverText => ({ markdown, range: offsetsOf(place) });

function jobHover(analysis: JobAnalysis, offset: number): HoverText | null {
  const { job, inspection } = analysis;
  if (inspection === null) return null;
  if (job.orderPlace && contains(job.orderPlace, offset))
    return at(orderHover({ ...analysis, inspection }), job.orderPlace);
  for (const stage of inspection.stages) {
    if (!contains(stage.measure.place, offset)) continue;
    const found = inStage(analysis, stage, stage.measure, offset);
    if (found) return found;
  }
  const pulled = inspection.work.pulls.find(({ pull }) => isTitle(analysis.text, pull.keyPlace, offset));
  return pulled ? at(pullHover(inspection, pulled), pulled.pull.keyPlace) : null;
}

/** On the key of an entry or what is called so behind it, not on a comment there. */
const isTitle = (text: string, keyPlace: Place, offset: number): boolean =>
  onFirstLine(keyPlace, text, { start: offset, end: offset }) &&
  !/\s#/.test(text.slice(offsetsOf(keyPlace).start, offset + 1));

function inStage(analysis: JobAnalysis, stage: Stage, measure: Measure, offset: number): HoverText | null {
  const inspection = analysis.inspection!;
  const told = toldAt(analysis.findings, offset);
  const reading = measure.readings.find((each) => contains(each.key, offset) || contains(each.value, offset));
  if (reading) {
    const place = contains(reading.key, offset) ? reading.key : reading.value;
    const judged = stage.points.find((each) => each.reading === reading);
    if (judged) return at(pointHover(inspection, stage, judged, told), place);
    const point = analysis.chassis?.points.get(reading.id);
    if (!point) return null;
    const page = referenceHover(point, analysis.chassis!, inspection);
    const word = wordHover(inspection, stage, reading);
    return at(word === null ? page : `${page}\n\n${word}`, place);
  }
  const span = stage.spans.find((each) => contains(each.reading.place, offset));
  if (span) return at(spanHover(inspection, span), span.reading.place);
  const head = { start: offset, end: offset };
  if (onFirstLine(measure.keyPlace, analysis.text, head))
    return at(stageHover(inspection, stage, told), measure.keyPlace);
  return null;
}

function wordHover({ stages }: Inspection, { index }: Stage, reading: Reading): string | null {
  if (reading.unreachable) return 'Unreachable in this stage: nothing is judged.';
  if (!reading.asBefore) return null;
  const before = stages.findLast((each) => each.index < index && reads(each.measure, reading.id));
  return before === undefined
    ? 'As before, and no earlier stage has a reading of it: nothing is judged.'
    : `As before: not read again in this stage. The reading of “${escaped(before.name)}” counts, and stays as old as it is.`;
}

function mentionHover(analysis: Analysis, offset: number): HoverText | null {
  if (analysis.kind === 'settings' || !analysis.chassis) return null;
  const mention = mentionsOf(analysis).find((each) => contains(each.place, offset));
  return mention ? namedHover(analysis, mention) : null;
}

function namedHover(
  analysis: Exclude<Analysis, { kind: 'settings' }>,
  mention: NamedPlace,
): HoverText | null {
  const chassis = analysis.chassis!;
  const inspection = analysis.kind === 'readings' ? analysis.inspection : null;
  const known: ReadonlyMap<string, unknown> = mention.kind === 'point' ? chassis.points : chassis.parts;
  const ids = idsNamed(mention.id, known);
  if (ids.length === 0) return null;
  const pages = ids.map((id) =>
    mention.kind === 'point'
      ? referenceHover(chassis.points.get(id)!, chassis, inspection)
      : partHover(chassis.parts.get(id)!, chassis, inspection),
  );
  return at(pages.join('\n\n---\n\n'), mention.place);
}
