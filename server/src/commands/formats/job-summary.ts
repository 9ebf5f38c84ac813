import { faultIn } from '../../findings/internal/fault';
import { standingOf } from '../../findings/standing';
import type { Verdict } from '../../inspection/alignment/verdict';
import { spanName } from '../../inspection/gate/current-spans';
import type { SignOffState } from '../../inspection/gate/sign-off';
import type { Inspection } from '../../inspection/job/inspect';
import { newestReleased, newestSpans } from '../../inspection/job/newest';
import { isEmpty, type Stage } from '../../inspection/job/stage';
import { printable } from '../../text/printable';
import { summaryLines } from '../../wording/summaries';
import { movePhrase, shortList } from '../../wording/wording';
import { type Worst, worstCertainty, worstPoint } from '../../wording/worst';
import type { JobAnalysis } from '../../workspace/workspace';
import type { JobSummary } from './format';

/** A job in a few lines: base, moved points, counts, the worst point, what remains. */
export function jobSummary(analysis: JobAnalysis, path: string, withSummaries: boolean): JobSummary {
  const { job } = analysis;
  const title = printable(
    `${path}: ${job.order === null ? 'job' : `order ${job.order}`}, ${job.signOff ? 'signed off' : 'open'}`,
  );
  return { title, lines: standingLines(analysis, withSummaries).map(printable) };
}

function standingLines(analysis: JobAnalysis, withSummaries: boolean): string[] {
  const { job, inspection, settings, findings } = analysis;
  const notStanding = job.signOff ? ['  sign-off: does not stand'] : [];
  if (inspection === null && faultIn(findings) !== null)
    return ['  nothing is judged: the program failed on it', ...notStanding];
  if (inspection === null)
    return ['  nothing is judged: there is no chassis file to judge by', ...notStanding];
  const state = standingOf({ inspection, settings, findings });
  const newest = inspection.stages.at(-1);
  if (newest === undefined) return ['  nothing was measured yet', ...(job.signOff ? gateLines(state) : [])];
  return [
    ...baseLines(newest),
    ...countLines(inspection),
    ...(withSummaries ? stageSummaries(inspection, newest) : []),
    ...gateLines(state),
  ];
}

function baseLines(stage: Stage): string[] {
  const { alignment } = stage;
  if (stage.network) return [`  newest stage "${stage.name}": distances only, adjusted together`];
  if (isEmpty(stage)) return [`  newest stage "${stage.name}": nothing to judge yet`];
  if (alignment === null) return [`  newest stage "${stage.name}": distances only`];
  const taken = alignment.inherited === null ? '' : ` (taken over from "${alignment.inherited}")`;
  const base = alignment.baseIds.length === 0 ? 'none' : shortList(alignment.baseIds);
  const lines = [
    `  newest stage "${stage.name}"${stage.underTension ? ', under tension' : ''}${stage.provisional ? ', provisional' : ''}`,
    `  base: ${base}${taken}`,
  ];
  if (alignment.movedIds.length > 0) lines.push(`  moved: ${shortList(alignment.movedIds)}`);
  return lines;
}

function countLines(inspection: Inspection): string[] {
  const read = [...newestReleased(inspection).values()];
  const points = read.map(({ judged }) => judged);
  const spans = [...newestSpans(inspection).values()].map(({ span }) => span);
  const counts: Record<Verdict, number> = { within: 0, outside: 0, undecided: 0, unjudged: 0 };
  for (const { verdict } of points) counts[verdict]++;
  // nothing counts as within by a base that is not settled: the sign-off would say another thing
  const provisional = read.filter(
    ({ judged, stage }) => stage.provisional && judged.verdict === 'within',
  ).length;
  for (const { verdict } of spans) counts[verdict]++;
  const { outside, undecided, unjudged } = counts;
  const within = counts.within - provisional;
  const lines = [
    `  newest readings: ${within} within, ${outside} outside, ${undecided} undecided${unjudged > 0 ? `, ${unjudged} unjudged` : ''}${provisional > 0 ? `, ${provisional} within but provisional` : ''}`,
  ];
  const open = spans.filter((span) => span.verdict === 'undecided').map(spanName);
  if (open.length > 0) lines.push(`  undecided distances: ${shortList(open)}`);
  const worst = worstPoint(points);
  if (worst) lines.push(`  worst: ${worst.judged.id}, ${worstPhrase(worst, inspection)}`);
  return lines;
}

function worstPhrase(worst: Worst, { job: { unit } }: Inspection): string {
  const { judged, axis, deviation } = worst;
  return `${movePhrase(axis, deviation, judged.point.side, unit)} of its place${worstCertainty(worst, unit)}`;
}

function stageSummaries(inspection: Inspection, stage: Stage): string[] {
  return summaryLines(inspection, stage).map(({ key, text }) => `  ${key}: ${text}`);
}

function gateLines(state: SignOffState): string[] {
  if (state.closed && state.passes) return ['  sign-off: stands (dimensions only)'];
  const head = state.closed ? 'sign-off does not stand' : 'remains';
  if (state.remaining.length === 0)
    return [
      state.closed ? '  sign-off: does not stand' : '  nothing remains: the dimensions may be signed off',
    ];
  const shown = state.remaining.slice(0, 12).map((each) => `    ${each}`);
  const more =
    state.remaining.length > shown.length ? [`    and ${state.remaining.length - shown.length} more`] : [];
  return [`  ${head}:`, ...shown, ...more];
}
