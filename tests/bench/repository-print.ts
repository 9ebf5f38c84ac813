import type { EditTimes, RepositoryTimes } from './repository';
import { median, quantile } from './statistics';

type Table = (head: readonly string[], rows: readonly (readonly string[])[]) => string;

const count = (value: number): string => value.toLocaleString('en-GB');
const ms = (value: number): string => value.toFixed(value < 100 ? 1 : 0);
const memory = (mb: RepositoryTimes['memoryMb']): string[] =>
  mb === null ? ['not known', 'not known'] : [mb.now.toFixed(0), mb.peak.toFixed(0)];

/** What was seen of a repository that is checked in the background. */
export function repositoryParts(times: RepositoryTimes, table: Table): string[] {
  const { jobs, readings, chassis, editDuring, editAfter } = times;
  const cells = (all: readonly number[]) =>
    all.length === 0 ? ['', '', ''] : [median(all), quantile(all, 0.95), Math.max(...all)].map(ms);
  const edits = (name: string, { waitedMs, workedMs }: EditTimes) => [
    [name, count(waitedMs.length), ...cells(waitedMs)],
    ['the server at work, of that', '', ...cells(workedMs)],
  ];
  return [
    `A workspace of ${count(jobs)} jobs of ${readings} readings and ${chassis} chassis files, checked in the background. All of it took ${(times.checkMs / 1000).toFixed(1)} s where nothing else was asked; findings of ${count(times.told)} files were told. A job that was opened meanwhile had its findings after ${ms(times.openMs)} ms. An edit of an open chassis file had its own after ${ms(times.chassisEditMs)} ms, and those of the ${times.dependants} closed jobs on it after ${ms(times.dependantsMs)} ms, of which the server waits 400 for a next edit.`,
    table(
      ['edit of the open job to diagnostics, ms', 'edits', 'median', '95th percentile', 'most'],
      [...edits('while all is checked', editDuring), ...edits('after that', editAfter)],
    ),
    table(
      ['memory of the server with one job open, MB', 'at the end', 'peak'],
      [
        ['the whole workspace checked', ...memory(times.memoryMb)],
        ['open files only', ...memory(times.memoryOpenOnlyMb)],
      ],
    ),
  ];
}
