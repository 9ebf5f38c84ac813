import { faultIn } from '../findings/internal/fault';
import { judgedParts } from '../inspection/advice/chassis-advice';
import { advised, stageToExtend } from '../inspection/advice/job-advice';
import { printable } from '../text/printable';
import { noAdviceText } from '../wording/advice-words';
import type { Files } from '../workspace/files';
import { type Judges, ownJudges } from '../workspace/judges';
import { type ChassisAnalysis, type JobAnalysis, Workspace } from '../workspace/workspace';
import type { Output } from './check-selected';
import type { Target } from './collect';
import { type ChassisAnswer, chassisAdviceJson, type JobAnswer, jobAdviceJson } from './formats/advise-json';
import { chassisAdviceLines, jobAdviceLines } from './formats/advise-text';
import { partAnswer } from './formats/part-answer';

interface AdviseOptions {
  /** Of the instrument, standard; null: the job's, and of a body that of the settings. */
  readonly uncertaintyMm: number | null;
  readonly asJson: boolean;
}

/** Prints what to read; exit code 0, or 2 where the file cannot be read or judged, or is neither a job nor a body. */
export async function advise(
  files: Files,
  { uri, path }: Target,
  options: AdviseOptions,
  output: Output,
  judges: Judges = ownJudges,
): Promise<number> {
  const complain = (message: string): number => {
    output.complain(printable(`framewright: ${path}: ${message}`));
    return 2;
  };
  const analysis = await new Workspace(files, judges).analysis(uri);
  if (!('findings' in analysis)) return complain(analysis.message);
  if (analysis.kind === 'settings') return complain('advice is given on a readings file or a chassis file');
  const fault = faultIn(analysis.findings);
  if (fault !== null) return complain(fault.message);
  const answer =
    analysis.kind === 'chassis'
      ? chassisAnswer(analysis, path, options.uncertaintyMm)
      : jobAnswer(analysis, path, options.uncertaintyMm);
  if (typeof answer === 'string') return complain(answer);
  const text = options.asJson ? jsonText(answer) : linesOf(answer);
  for (const line of text.split('\n')) output.print(printable(line));
  return 0;
}

const jsonText = (answer: JobAnswer | ChassisAnswer): string =>
  JSON.stringify('parts' in answer ? chassisAdviceJson(answer) : jobAdviceJson(answer), null, 2);

const linesOf = (answer: JobAnswer | ChassisAnswer): string =>
  ('parts' in answer ? chassisAdviceLines(answer) : jobAdviceLines(answer)).join('\n');

function jobAnswer(
  { inspection, job }: JobAnalysis,
  path: string,
  uncertaintyMm: number | null,
): JobAnswer | string {
  if (inspection === null) return 'its chassis file cannot be read, so nothing can be advised';
  const stage = stageToExtend(inspection);
  const advice = advised(inspection, stage, uncertaintyMm);
  if (advice === 'broken') return noAdviceText.broken;
  return { path, unit: job.unit, stage, advice };
}

function chassisAnswer(
  { chassis, settings }: ChassisAnalysis,
  path: string,
  uncertaintyMm: number | null,
): ChassisAnswer | string {
  if (chassis.broken) return noAdviceText.broken;
  const u = uncertaintyMm ?? settings.adviseUncertaintyMm;
  const parts = judgedParts(chassis).map((part) => partAnswer(chassis, part, u));
  return { path, unit: chassis.unit, uncertaintyMm: u, parts };
}
