import { jobFrom } from '../model/read/job-from-text';
import { parseText } from '../text/yaml/parse';
import type { Analysis, ChassisAnalysis, JobAnalysis } from '../workspace/workspace';
import { chassisImport } from './chassis-import';
import { type Imported, type ImportOptions, jobImport } from './job-import';
import type { TableRead } from './table-reading';

/** A job whose names are known, or a body. */
export type Fillable =
  | (JobAnalysis & { readonly chassis: NonNullable<JobAnalysis['chassis']> })
  | ChassisAnalysis;

/** A file that rows may go into, or why it takes none. */
export function fillable(analysis: Analysis): Fillable | string {
  if (analysis.kind === 'settings') return 'settings hold no measurements';
  if (analysis.tree.problems.length > 0) return 'its text cannot be read whole: see `framewright check`';
  if (analysis.kind === 'chassis') return analysis;
  const { chassis, job } = analysis;
  if (chassis === null) return 'its chassis file cannot be read, so no name is known';
  if (job.signOff !== null) return 'it is signed: nothing is added to a signed job';
  return { ...analysis, chassis };
}

/** What a table makes of a file; its text is null where the file cannot take the rows, or would not read back as what was understood. */
export function importedInto(file: Fillable, table: TableRead, options: ImportOptions): Imported {
  const imported =
    file.kind === 'chassis' ? chassisImport(file, table, options.partial) : jobImport(file, table, options);
  return { ...imported, text: proved(file, imported.text) };
}

function proved(file: Fillable, text: string | null): string | null {
  if (text === null) return null;
  const tree = parseText(text);
  if (tree.problems.length > 0) return null;
  if (file.kind === 'chassis') return text;
  const count = (of: JobAnalysis['job']) => of.timeline.filter(({ kind }) => kind === 'measure').length;
  return count(jobFrom(file.uri, tree)) >= count(file.job) ? text : null;
}
