import { faultIn } from '../findings/internal/fault';
import { nearest } from '../model/names';
import { chassisColumnNames, chassisTable } from '../tables/chassis-table';
import { jobColumnNames, jobTable } from '../tables/job-table';
import { csvText, type WrittenSheet } from '../tables/written-cells';
import { printable } from '../text/printable';
import type { Files } from '../workspace/files';
import { type Analysis, type Fault, type JobAnalysis, Workspace } from '../workspace/workspace';
import type { Output } from './check-selected';
import type { Target } from './collect';

interface Exporting extends Output {
  /** Null: all, the order of a job only where there are several. */
  readonly columns: readonly string[] | null;
  readonly asSheets: boolean;
  /** Each answers null, or what went wrong. */
  writeText(text: string): string | null;
  writeSheets(sheets: readonly WrittenSheet[]): Promise<string | null>;
}

/** Jobs, or one body, as a table. Exit code 0, or 2 where a file cannot be read or judged, or the table not written. */
export async function exportTable(
  files: Files,
  targets: readonly Target[],
  exporting: Exporting,
): Promise<number> {
  const complain = (message: string): number => {
    exporting.complain(printable(`framewright: ${message}`));
    return 2;
  };
  const workspace = new Workspace(files);
  const analyses: Analysis[] = [];
  for (const { uri, path } of targets) {
    const analysis = await workspace.analysis(uri);
    const why = whyNot(analysis);
    if (why !== null) return complain(`${path}: ${why}`);
    if ('findings' in analysis) analyses.push(analysis);
  }
  const isBody = analyses.some(({ kind }) => kind === 'chassis');
  if (isBody && analyses.length > 1) return complain('a chassis file is exported by itself');
  const known = isBody ? chassisColumnNames : jobColumnNames;
  const chosen =
    exporting.columns ?? (isBody || analyses.length > 1 ? known : known.filter((name) => name !== 'order'));
  const strange = chosen.find((name) => !known.includes(name));
  if (strange !== undefined) {
    const meant = nearest(strange, known);
    return complain(
      `there is no column ${strange}${meant ? `; did you mean ${meant}?` : ''} There are ${known.join(', ')}`,
    );
  }
  const sheets = sheetsOf(analyses, chosen);
  const fault = exporting.asSheets
    ? await exporting.writeSheets(sheets.map(({ name, rows }) => ({ name, rows: [chosen, ...rows] })))
    : exporting.writeText(csvText([chosen, ...sheets.flatMap(({ rows }) => rows)]));
  return fault === null ? 0 : complain(fault);
}

/** Why a file makes no table; null where it does. A row that could not be read would be missing without a word. */
function whyNot(
  analysis: Analysis | Fault | { readonly kind: string; readonly message: string },
): string | null {
  if (!('findings' in analysis)) return analysis.message;
  const fault = faultIn(analysis.findings);
  if (fault !== null) return fault.message;
  if (analysis.kind === 'settings') return 'settings hold no measurements';
  if (analysis.tree.problems.length > 0) return 'its text cannot be read whole: see `framewright check`';
  if (analysis.kind === 'chassis')
    return analysis.chassis.broken ? 'it cannot be read whole: see `framewright check`' : null;
  if (analysis.inspection === null) return 'its chassis file cannot be read, so nothing is judged';
  return analysis.job.broken ? 'it cannot be read whole: see `framewright check`' : null;
}

function sheetsOf(analyses: readonly Analysis[], chosen: readonly string[]): readonly WrittenSheet[] {
  const taken = new Set<string>();
  const several = analyses.length > 1;
  return analyses.flatMap((analysis): WrittenSheet[] => {
    if (analysis.kind === 'chassis')
      return [{ name: 'reference', rows: chassisTable(analysis.chassis, chosen) }];
    return analysis.kind === 'readings' ? measureSheets(analysis, { chosen, several, taken }) : [];
  });
}

function measureSheets(
  { inspection, job }: JobAnalysis,
  { chosen, several, taken }: { chosen: readonly string[]; several: boolean; taken: Set<string> },
): WrittenSheet[] {
  if (inspection === null) return [];
  return jobTable(inspection, chosen).map(({ measure, rows }) => ({
    name: sheetName(several ? `${job.order ?? ''} ${measure}` : measure, taken),
    rows,
  }));
}

/** At most 31 characters, none of those that are refused there, and none twice. */
function sheetName(wanted: string, taken: Set<string>): string {
  const plain =
    printable(wanted)
      .replace(/[\\/?*:[\]']/g, ' ')
      .trim()
      .slice(0, 25) || 'measure';
  for (let i = 1; ; i++) {
    const name = i === 1 ? plain : `${plain} ${i}`;
    if (taken.has(name.toLowerCase())) continue;
    taken.add(name.toLowerCase());
    return name;
  }
}
