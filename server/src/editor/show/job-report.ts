import { fileName } from '../../model/file-name';
import { reportOf } from '../../report/record/job-report-of';
import type { Paper } from '../../report/record/job-report-styles';
import type { Analysis } from '../../workspace/workspace';

/** The record of a job as it is being typed, and what its page may be called; or why there is none, in words for a person. */
type JobReportAnswer = { readonly html: string; readonly name: string } | { readonly message: string };

export function jobReportAnswer(analysis: Analysis, paper: Paper | null): JobReportAnswer {
  const made = reportOf(analysis);
  return 'message' in made ? made : { html: made.pageFor(paper), name: pageName(analysis.uri) };
}

/** `w-1187.readings.yaml` → `w-1187.html`. */
function pageName(uri: string): string {
  const name = fileName(uri.split(/[?#]/, 1)[0]);
  return `${name.replace(/(\.readings)?\.ya?ml$/i, '') || 'report'}.html`;
}
