import { drawingParts } from './drawing';
import { type FileTimes, type ServerTimes, warmUps } from './edit-times';
import { editKinds } from './edits';
import { repositoryParts } from './repository-print';
import { fileName, holds, type Measured, type Requirement, requirements } from './requirements';
import { growthExponent, median, quantile } from './statistics';
import { tableParts } from './tables';

const figure = (value: number): string => value.toFixed(value < 10 ? 1 : 0);
const some = (value: number | null, unit = ''): string =>
  value === null ? 'not known' : `${figure(value)}${unit}`;
const count = (value: number): string => value.toLocaleString('en-GB');

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const row = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [row(head), row(head.map((_, index) => (index === 0 ? '---' : '--:'))), ...rows.map(row)].join('\n');
}

/** Edits: medians of each server, of ours the 95th percentile beside. */
function editTable(files: readonly FileTimes[]): string {
  const { servers } = files[0];
  const names = servers.flatMap(({ server }) =>
    server.isOurs ? [server.name, '95th percentile'] : [server.name, 'times ours'],
  );
  const rows = files.flatMap((file) =>
    editKinds.map((kind) => {
      const own = median(file.servers[0].editMs[kind]);
      const cells = file.servers.flatMap(({ server, editMs }) => {
        const each = median(editMs[kind]);
        return server.isOurs
          ? [figure(each), figure(quantile(editMs[kind], 0.95))]
          : [figure(each), figure(each / own)];
      });
      return [`${count(file.readings)}, ${fileName(file)}: ${kind}`, ...cells];
    }),
  );
  return table(['edit to diagnostics, ms', ...names], rows);
}

function perFileTable(
  files: readonly FileTimes[],
  what: string,
  cell: (times: ServerTimes) => string,
): string {
  const rows = files.map((file) => [`${count(file.readings)}, ${fileName(file)}`, ...file.servers.map(cell)]);
  return table([what, ...files[0].servers.map(({ server }) => server.name)], rows);
}

/** How the medians of edits grow with the number of readings, for each edit and file. */
function editGrowth(files: readonly FileTimes[]): string {
  const rows = editKinds.flatMap((kind) =>
    [false, true].map((outside) => {
      const chosen = files.filter((file) => file.outside === outside);
      const name = `${kind}, ${outside ? '5 % outside' : 'no finding'}`;
      const cells = files[0].servers.map((_, index) => {
        const points = chosen.map(
          ({ readings, servers }) => [readings, median(servers[index].editMs[kind])] as const,
        );
        return growthExponent(points)?.toFixed(2) ?? 'one size only';
      });
      return [name, ...cells];
    }),
  );
  return table(
    ['growth with readings, exponent', ...files[0].servers.map(({ server }) => server.name)],
    rows,
  );
}

function requirementLine(requirement: Requirement): string {
  const { text, limit, atLeast, unit, worst, where } = requirement;
  const verdict = { true: 'pass', false: 'FAIL', null: 'not measured' }[`${holds(requirement)}`];
  const gap = unit === 'ms' ? ' ms' : unit;
  const seen = worst === null ? '' : `: ${worst.toFixed(2)}${gap} (${where})`;
  return `- ${verdict} · ${text}, ${atLeast ? 'at least' : 'at most'} ${limit}${gap}${seen}`;
}

export function printed(measured: Measured, machine: string): string {
  const { files, batch, start, repository, drawing, tables } = measured;
  const parts = ['# Benchmark', machine];
  if (files.length > 0) {
    parts.push(
      `Medians. Servers take turns in one run; an edit is timed from writing it to having its first diagnostics, delays that a server makes on purpose included. Before that come edits that are not counted: the first 25, which are told of apart, and ${warmUps} of each kind for ${files[0].servers[0].server.name}, one for the others.`,
      editTable(files),
      perFileTable(files, 'first open, ms', ({ openMs }) => figure(median(openMs))),
      perFileTable(files, 'first 25 edits, ms', ({ firstMs }) =>
        firstMs.length === 0 ? 'not measured' : figure(median(firstMs)),
      ),
      perFileTable(files, 'peak memory, MB', ({ peakMemoryMb }) => some(peakMemoryMb)),
      editGrowth(files),
    );
  }
  if (batch) {
    const { jobs, readings, chassis, checkMs, shapeMs, growth, withoutJobsMs, exponent, exponentOfJobs } =
      batch;
    parts.push(
      table(
        [`${count(jobs)} jobs of ${readings} readings, ${chassis} chassis files`, 'median, ms'],
        [
          ['framewright check, the first time', figure(median(checkMs))],
          ['again, nothing changed', figure(median(batch.againMs))],
          [
            `--staged, ${batch.staged.changed} changed of ${count(batch.staged.jobs)}`,
            figure(median(batch.staged.checkMs)),
          ],
          ['node -e 0', figure(median(batch.nodeMs))],
          ['js-yaml and ajv, shape only', figure(median(shapeMs))],
        ],
      ),
      table(
        ['check, jobs', 'median, ms', 'a job, ms'],
        growth.map(({ jobs: of, medianMs }) => [
          count(of),
          figure(medianMs),
          ((medianMs - withoutJobsMs) / of).toFixed(2),
        ]),
      ),
      `Exponent of the whole ${exponent?.toFixed(3) ?? 'not known'}, of what the jobs add to the chassis files alone (${figure(withoutJobsMs)} ms) ${exponentOfJobs?.toFixed(3) ?? 'not known'}.`,
    );
  }
  if (start) {
    parts.push(
      table(
        ['start', 'median, ms'],
        [
          [`framewright check, one job of ${start.readings} readings`, figure(median(start.checkMs))],
          ['node -e 0', figure(median(start.nodeMs))],
        ],
      ),
    );
  }
  if (repository) parts.push(...repositoryParts(repository, table));
  if (drawing) parts.push(...drawingParts(drawing, table));
  if (tables) parts.push(...tableParts(tables, table));
  parts.push('## What must hold', requirements(measured).map(requirementLine).join('\n'));
  return parts.join('\n\n');
}
