import { fileName } from '../../model/file-name';
import { recordMakerOf } from '../../report/record/record-of';
import type { Paper } from '../../report/record/record-styles';
import type { Analysis } from '../../workspace/workspace';

/** The record of a job as it is being typed, and what its page may be called; or why there is none, in words for a person. */
type RecordAnswer = { readonly html: string; readonly name: string } | { readonly message: string };

export function recordAnswer(analysis: Analysis, paper: Paper | null): RecordAnswer {
  const made = recordMakerOf(analysis);
  return 'message' in made ? made : { html: made.pageFor(paper), name: pageName(analysis.uri) };
}

/** `w-1187.readings.yaml` → `w-1187.html`. */
function pageName(uri: string): string {
  const name = fileName(uri.split(/[?#]/, 1)[0]);
  return `${name.replace(/(\.readings)?\.ya?ml$/i, '') || 'report'}.html`;
}
