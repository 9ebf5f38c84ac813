import type { BatchTimes } from './batch';
import { type DrawingTimes, togetherMs } from './drawing';
import type { FileTimes, ServerTimes } from './edit-times';
import { type EditKind, editKinds } from './edits';
import type { RepositoryTimes } from './repository';
import type { StartTimes } from './start';
import { median, quantile } from './statistics';
import type { TableTimes } from './tables';

export interface Measured {
  readonly files: readonly FileTimes[];
  readonly batch: BatchTimes | null;
  readonly start: StartTimes | null;
  readonly repository: RepositoryTimes | null;
  readonly drawing: readonly DrawingTimes[] | null;
  readonly tables: TableTimes | null;
}

/** What must hold, and the worst that was seen of it; null: not measured in this run. */
export interface Requirement {
  readonly text: string;
  readonly limit: number;
  /** At least the limit rather than at most. */
  readonly atLeast?: boolean;
  readonly unit: 'ms' | '×' | '';
  readonly worst: number | null;
  /** Of which file and edit. */
  readonly where: string;
}

export const holds = ({ worst, limit, atLeast }: Requirement): boolean | null =>
  worst === null ? null : atLeast ? worst >= limit : worst <= limit;

const oursOf = ({ servers }: FileTimes): ServerTimes => servers.find(({ server }) => server.isOurs)!;
const yamlOf = ({ servers }: FileTimes): ServerTimes | undefined =>
  servers.find(({ server }) => !server.isOurs && server.text === 'yaml');

type Case = { value: number | null; where: string };
type Extreme = (...values: number[]) => number;

/** The worst of some cases; none where one was not measured. */
function worstOf(cases: readonly Case[], extreme: Extreme = Math.max): Pick<Requirement, 'worst' | 'where'> {
  const known = cases.flatMap(({ value, where }) => (value === null ? [] : [{ value, where }]));
  if (known.length === 0 || known.length < cases.length) return { worst: null, where: '' };
  const worst = extreme(...known.map(({ value }) => value));
  return { worst, where: known.find(({ value }) => value === worst)!.where };
}

export const fileName = ({ outside }: FileTimes): string => (outside ? '5 % outside' : 'no finding');

export function requirements({ files, batch, start, repository, drawing, tables }: Measured): Requirement[] {
  const ofSize = (readings: number) => files.filter((file) => file.readings === readings);
  const perEdit = (readings: number, value: (file: FileTimes, kind: EditKind) => number | null): Case[] =>
    ofSize(readings).flatMap((file) =>
      editKinds.map((kind) => ({ value: value(file, kind), where: `${kind}, ${fileName(file)}` })),
    );
  const perFile = (readings: number, value: (file: FileTimes) => number | null): Case[] =>
    ofSize(readings).map((file) => ({ value: value(file), where: fileName(file) }));
  const medianMs = (file: FileTimes, kind: EditKind) => median(oursOf(file).editMs[kind]);
  const late = (file: FileTimes, kind: EditKind) => quantile(oursOf(file).editMs[kind], 0.95);
  const besideYaml = (file: FileTimes, value: (times: ServerTimes) => number | null): number | null => {
    const yaml = yamlOf(file);
    const [own, others] = [value(oursOf(file)), yaml ? value(yaml) : null];
    return own === null || others === null ? null : own / others;
  };
  const grown = (file: FileTimes, kind: EditKind): number | null => {
    const small = ofSize(10_000).find(({ outside }) => outside === file.outside);
    return small ? medianMs(file, kind) / medianMs(small, kind) : null;
  };
  return [
    { text: 'edit at 600, median', limit: 5, unit: 'ms', ...worstOf(perEdit(600, medianMs)) },
    { text: 'edit at 600, 95th percentile', limit: 10, unit: 'ms', ...worstOf(perEdit(600, late)) },
    { text: 'edit at 10,000, median', limit: 10, unit: 'ms', ...worstOf(perEdit(10_000, medianMs)) },
    { text: 'edit at 10,000, 95th percentile', limit: 20, unit: 'ms', ...worstOf(perEdit(10_000, late)) },
    {
      text: 'first 25 edits at 10,000, median',
      limit: 20,
      unit: 'ms',
      ...worstOf(perFile(10_000, (file) => median(oursOf(file).firstMs))),
    },
    {
      text: 'edit at 10,000, faster than yaml-language-server',
      limit: 40,
      atLeast: true,
      unit: '×',
      ...worstOf(
        perEdit(10_000, (file, kind) => {
          const share = besideYaml(file, ({ editMs }) => median(editMs[kind]));
          return share === null ? null : 1 / share;
        }),
        Math.min,
      ),
    },
    { text: 'edit at 50,000, beside 10,000', limit: 4, unit: '×', ...worstOf(perEdit(50_000, grown)) },
    {
      text: 'first open at 10,000, beside yaml-language-server',
      limit: 0.5,
      unit: '×',
      ...worstOf(perFile(10_000, (file) => besideYaml(file, ({ openMs }) => median(openMs)))),
    },
    {
      text: 'peak memory at 10,000, beside yaml-language-server',
      limit: 0.5,
      unit: '×',
      ...worstOf(perFile(10_000, (file) => besideYaml(file, ({ peakMemoryMb }) => peakMemoryMb))),
    },
    {
      text: 'check on many jobs, beside js-yaml and ajv',
      limit: 1,
      unit: '×',
      worst: batch && median(batch.checkMs) / median(batch.shapeMs),
      where: batch ? `${batch.jobs} jobs` : '',
    },
    {
      text: 'growth of check with the number of jobs, exponent',
      limit: 1.05,
      unit: '',
      worst: batch?.exponentOfJobs ?? null,
      where: batch ? 'of what the jobs add' : '',
    },
    {
      text: 'check again with nothing changed',
      limit: 500,
      unit: 'ms',
      worst: batch && median(batch.againMs),
      where: batch
        ? `${batch.jobs} jobs of ${batch.readings} readings; Node doing nothing ${median(batch.nodeMs).toFixed(0)} ms`
        : '',
    },
    {
      text: 'check --staged',
      limit: 500,
      unit: 'ms',
      worst: batch && median(batch.staged.checkMs),
      where: batch ? `${batch.staged.changed} changed of ${batch.staged.jobs} jobs` : '',
    },
    {
      text: 'start, beside Node doing nothing',
      limit: 3,
      unit: '×',
      worst: start && median(start.checkMs) / median(start.nodeMs),
      where: start ? 'check on one job' : '',
    },
    ...whileChecked(repository),
    {
      text: 'edit to the patch of a drawing of 200 points in 20 stages, median',
      limit: 16,
      unit: 'ms',
      ...worstOf((drawing ?? []).map((each) => ({ value: median(togetherMs(each)), where: each.kind }))),
    },
    ...ofTables(tables),
  ];
}

function ofTables(tables: TableTimes | null): Requirement[] {
  const of = (value: (times: TableTimes) => number) => tables && value(tables);
  return [
    {
      text: '1,000 rows pasted become rows, median',
      limit: 100,
      unit: 'ms',
      worst: of(({ pasteMs }) => median(pasteMs)),
      where: 'of the server alone',
    },
    {
      text: '100,000 rows imported, median',
      limit: 3000,
      unit: 'ms',
      worst: of(({ importMs }) => median(importMs)),
      where: 'the whole command',
    },
  ];
}

/** All files of a repository are checked in the background: an open one must not feel it. */
function whileChecked(repository: RepositoryTimes | null): Requirement[] {
  const where = repository ? `${repository.jobs} jobs, an open one of ${repository.readings} readings` : '';
  const of = (value: (times: readonly number[]) => number) =>
    repository && value(repository.editDuring.waitedMs);
  const text = 'edit while a repository is checked';
  return [
    { text: `${text}, median`, limit: 10, unit: 'ms', worst: of(median), where },
    {
      text: `${text}, 95th percentile`,
      limit: 20,
      unit: 'ms',
      worst: of((times) => quantile(times, 0.95)),
      where,
    },
  ];
}
