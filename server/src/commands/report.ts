import { recordTitle } from '../report/record/record';
import { recordMakerOf } from '../report/record/record-of';
import type { Paper } from '../report/record/record-styles';
import { printable } from '../text/printable';
import type { Files } from '../workspace/files';
import { type Judges, ownJudges } from '../workspace/judges';
import { Workspace } from '../workspace/workspace';
import type { Output } from './check-selected';
import type { Target } from './collect';

/** What a door that has a disk does for a report. Each answers null, or says what went wrong. */
interface ReportOutput extends Output {
  /** Writes the page as it is. */
  write(page: string): string | null;
  /** Prints a page, whose title begins so, as PDF; null where that was not asked for. */
  readonly printAsPdf: ((page: string, title: string) => string | null) | null;
  /** Null: the page leaves it to who prints, the PDF is A4. */
  readonly paper: Paper | null;
}

/** Writes the dimensional record of one job; exit code 0, or 2 where the file cannot be read or judged, or the page not written. */
export async function report(
  files: Files,
  { uri, path }: Target,
  output: ReportOutput,
  judges: Judges = ownJudges,
): Promise<number> {
  const complain = (message: string): number => {
    output.complain(printable(`framewright: ${message}`));
    return 2;
  };
  const analysis = await new Workspace(files, judges).analysis(uri);
  if (!('findings' in analysis)) return complain(`${path}: ${analysis.message}`);
  const made = recordMakerOf(analysis);
  if ('message' in made) return complain(`${path}: ${made.message}`);
  const fault =
    output.write(made.pageFor(output.paper)) ??
    output.printAsPdf?.(made.pageFor(output.paper ?? 'A4'), recordTitle) ??
    null;
  return fault === null ? 0 : complain(fault);
}
