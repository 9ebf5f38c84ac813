import { faultIn } from '../findings/internal/fault';
import type { Inspection } from '../inspection/job/inspect';
import { pullPlan } from '../inspection/pulls/plan';
import { idsNamed, nearest } from '../model/names';
import { printable } from '../text/printable';
import { planText } from '../wording/job-plan/plan-lines';
import { planPageText } from '../wording/job-plan/plan-page';
import type { Files } from '../workspace/files';
import { type Judges, ownJudges } from '../workspace/judges';
import { Workspace } from '../workspace/workspace';
import type { Output } from './check-selected';
import type { Target } from './collect';

/**
 * The pull plan of a job as text: one page for all of it, or the detail of one part (a bare name means both sides). Null where the chassis
 * has no such part.
 */
export function planReport(inspection: Inspection, partId?: string): string | null {
  if (partId === undefined) return planPageText(inspection);
  const asked = idsNamed(partId, inspection.chassis.parts);
  return asked.length === 0
    ? null
    : asked.map((id) => planText(pullPlan(inspection, id), inspection).join('\n')).join('\n\n');
}

/** Prints them; exit code 0, 1 where a file has errors that hold the plan back, or 2 where the file cannot be read or judged, is no readings file, or has no such part. */
export async function plan(
  files: Files,
  { uri, path }: Target,
  partId: string | undefined,
  output: Output,
  judges: Judges = ownJudges,
): Promise<number> {
  const complain = (message: string): number => {
    output.complain(`framewright: ${path}: ${message}`);
    return 2;
  };
  const analysis = await new Workspace(files, judges).analysis(uri);
  if (!('findings' in analysis)) return complain(analysis.message);
  if (analysis.kind !== 'readings') return complain('a plan is made from a readings file');
  const fault = faultIn(analysis.findings);
  if (fault !== null) return complain(fault.message);
  const { inspection } = analysis;
  if (inspection === null) return complain('its chassis file cannot be read, so nothing can be planned');
  if (inspection.heldBack) {
    const count = analysis.findings.filter(({ severity }) => severity === 'error').length;
    const errors = count === 1 ? 'one error' : `${count} errors`;
    const where = count === 0 ? 'its chassis file has errors' : `it has ${errors}`;
    output.complain(`framewright: ${path}: no plan: ${where}: \`framewright check\` names them`);
    return 1;
  }
  const report = planReport(inspection, partId);
  if (report !== null) {
    for (const line of report.split('\n')) output.print(printable(line));
    return 0;
  }
  const meant = nearest(partId ?? '', inspection.chassis.parts.keys());
  return complain(`the chassis file has no part ${partId}${meant ? `; did you mean ${meant}?` : ''}`);
}
