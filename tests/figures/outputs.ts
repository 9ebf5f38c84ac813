/** Everything that is said of a file, by every way out, by the name of the way. */
import { chassisJson, jobJson } from '../../server/src/commands/formats/inspect-json';
import { jobSummary } from '../../server/src/commands/formats/job-summary';
import { planReport } from '../../server/src/commands/plan';
import { hoverAt } from '../../server/src/editor/hover/hover';
import { lensesOf, lensWords } from '../../server/src/editor/show/code-lens';
import { drawingAnswer } from '../../server/src/editor/show/drawing';
import { inlayHints } from '../../server/src/editor/show/inlay-hints';
import { fileEntry } from '../../server/src/editor/show/jobs';
import { outsidePlaces } from '../../server/src/editor/show/outside';
import { recordAnswer } from '../../server/src/editor/show/record-answer';
import { planEntryLines } from '../../server/src/wording/job-plan/plan-lines';
import { summaryLines } from '../../server/src/wording/summaries';
import type { Analysis, JobAnalysis } from '../../server/src/workspace/workspace';

/** Words, or plain data whose numbers and words count. */
export type Output = readonly [way: string, said: unknown];

/** What takes long to make. */
export type Dear = 'record' | 'pictures';

/** So many places of a file are pointed at. */
const hovers = 30;
const question = { over: null, selected: null, cursor: null, cursorStage: null, width: 600 } as const;

export function* outputsOf(analysis: Analysis, dear: readonly Dear[]): Generator<Output> {
  yield ['findings', analysis.findings];
  if (analysis.kind === 'settings') return;
  yield* hoversOf(analysis);
  yield ['list of jobs', fileEntry(analysis)];
  if (dear.includes('pictures')) yield* picturesOf(analysis);
  if (analysis.kind === 'chassis') yield ['inspect --json', chassisJson(analysis, 'a')];
  else yield* jobOutputs(analysis);
  if (dear.includes('record') && analysis.kind === 'readings') yield ['record', recordAnswer(analysis, null)];
}

function* picturesOf(analysis: Analysis): Generator<Output> {
  const drawing = drawn(analysis, 'drawing');
  yield ['drawing', drawing];
  yield ['solid', drawn(analysis, 'solid')?.solid];
  const selected = drawing?.drawing?.views[0]?.marks[0]?.id ?? null;
  yield ['history', drawn(analysis, 'history', selected)?.sheets];
}

const drawn = (
  analysis: Analysis,
  section: 'drawing' | 'solid' | 'history',
  selected: string | null = null,
) => drawingAnswer(analysis, { ...question, section, selected, stage: null });

function* hoversOf(analysis: Analysis): Generator<Output> {
  const step = Math.max(1, Math.floor(analysis.text.length / hovers));
  for (let at = 0; at < analysis.text.length; at += step)
    yield ['hover', hoverAt(analysis, at)?.markdown ?? ''];
}

function* jobOutputs(analysis: JobAnalysis): Generator<Output> {
  const { inspection, text } = analysis;
  yield ['inspect --json', jobJson(analysis, 'a')];
  const { title, lines } = jobSummary(analysis, 'a', true);
  yield ['check', [title, ...lines].join('\n')];
  const whole = { start: 0, end: text.length };
  yield ['inlay hints', inlayHints(analysis, whole, { stages: 'all', certainty: true, show: 'all' })];
  for (const { about } of lensesOf(analysis, new Set(['framewright.signOff'])))
    yield ['code lens', lensWords(analysis, about)?.title ?? ''];
  yield ['places outside', outsidePlaces(analysis).map(({ words }) => words)];
  if (inspection === null) return;
  for (const stage of inspection.stages) yield ['summaries', summaryLines(inspection, stage)];
  for (const part of inspection.chassis.parts.keys()) {
    yield ['plan', planReport(inspection, part) ?? ''];
    yield ['plan in the file', planEntryLines(inspection, part).join('\n')];
  }
}
