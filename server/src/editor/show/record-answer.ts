import type { RecordAnswer } from '@framewright/schemas/wire';
import { fileName } from '../../model/file-name';
import { recordMakerOf } from '../../report/record/record-of';
import type { Paper } from '../../report/record/record-styles';
import type { Analysis } from '../../workspace/workspace';

/** The record of a job as it is being typed. */
export function recordAnswer(analysis: Analysis, paper: Paper | null): RecordAnswer {
  const made = recordMakerOf(analysis);
  return 'message' in made ? made : { html: made.pageFor(paper), name: pageName(analysis.uri) };
}

/** `w-1187.readings.yaml` → `w-1187.html`. */
function pageName(uri: string): string {
  const name = fileName(uri.split(/[?#]/, 1)[0]);
  return `${name.replace(/(\.readings)?\.ya?ml$/i, '') || 'report'}.html`;
}
