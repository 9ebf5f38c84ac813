import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { setTimeout as pause } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { seededRandom } from '../published/seeded-random';
import { editsOf } from './edits';
import { writeShop } from './generate';
import { yamlText } from './job';
import { RepositoryClient } from './repository-client';
import type { Splice } from './splice';

/** A repository opened in an editor: all of it is judged in the background. */
export interface RepositoryTimes {
  readonly jobs: number;
  readonly readings: number;
  readonly chassis: number;
  /** From the server's start until all was judged, nothing else being asked. */
  readonly checkMs: number;
  /** Files with findings that were told. */
  readonly told: number;
  /** First opening of a job while the check runs. */
  readonly openMs: number;
  /** Edit to diagnostics of an open job, while the check runs and after it. */
  readonly editDuring: EditTimes;
  readonly editAfter: EditTimes;
  /** An edit of an open chassis file: until its own answer, and until all closed jobs on it were judged again. */
  readonly chassisEditMs: number;
  readonly dependants: number;
  readonly dependantsMs: number;
  /** Of the server with one job open: all judged, and told to judge open files only. */
  readonly memoryMb: { readonly now: number; readonly peak: number } | null;
  readonly memoryOpenOnlyMb: { readonly now: number; readonly peak: number } | null;
}

export interface EditTimes {
  readonly waitedMs: number[];
  /** Of that: while the server's main thread worked, on a machine that has other things to do as well; empty where it is not known. */
  readonly workedMs: number[];
}

const bodies = 50;
const readings = 600;
/** Between edits, ms: longer than what the check waits for after an edit, so that edits come amid its work. */
const fewestGapMs = 110;
const mostGapMs = 190;

export async function repositoryTimes(folder: string, quick: boolean): Promise<RepositoryTimes> {
  const jobsInEach = quick ? 25 : 250;
  const shop = writeShop(folder, { bodies, folders: 8, jobsInEach, readings }, yamlText);
  const random = seededRandom(4);
  const gap = () => pause(random.uniform(fewestGapMs, mostGapMs));
  const job = path.join(shop.jobs[0], 'w-3000.readings.yaml');
  const edit = editsOf('a new entry', 'yaml', { judged: [], control: [] }, 1);

  const alone = await RepositoryClient.started(folder);
  const start = performance.now();
  await alone.checked;
  const checkMs = performance.now() - start;
  const told = alone.told.size;
  await alone.end();

  const openOnly = await RepositoryClient.started(folder, false);
  await openOnly.open(job);
  await pause(500);
  const memoryOpenOnlyMb = openOnly.memoryMb();
  await openOnly.end();

  const client = await RepositoryClient.started(folder);
  await pause(500);
  const openMs = await client.open(job);
  const edits = async (times: EditTimes): Promise<void> => {
    await gap();
    const before = client.workedMs();
    times.waitedMs.push(await client.edit(job, edit));
    const after = client.workedMs();
    if (before !== null && after !== null) times.workedMs.push(after - before);
  };
  const editDuring: EditTimes = { waitedMs: [], workedMs: [] };
  while (!client.isChecked) await edits(editDuring);
  const memoryMb = client.memoryMb();
  const editAfter: EditTimes = { waitedMs: [], workedMs: [] };
  for (let turn = 0; turn < (quick ? 20 : 60); turn++) await edits(editAfter);

  // every second body has jobs with findings only
  const chassis = path.join(shop.specs, 'body-01.chassis.yaml');
  const dependants = jobsOn(1, shop.jobs, jobsInEach);
  await client.open(chassis);
  await pause(1000);
  const again = client.toldAgain(dependants);
  const chassisEditMs = await client.edit(chassis, otherTolerance);
  const dependantsMs = await again;
  await client.end();
  return {
    jobs: 8 * jobsInEach,
    readings,
    chassis: bodies,
    checkMs,
    told,
    openMs,
    editDuring,
    editAfter,
    chassisEditMs,
    dependants: dependants.length,
    dependantsMs,
    memoryMb,
    memoryOpenOnlyMb,
  };
}

function otherTolerance(text: string): Splice {
  const start = text.indexOf('\ntolerance: ') + '\ntolerance: '.length;
  return { start, end: start + 1, text: text[start] === '3' ? '4' : '3' };
}

/** URIs of the jobs on one body, as `writeShop` hands bodies out. */
const jobsOn = (body: number, folders: readonly string[], jobsInEach: number): string[] =>
  folders.flatMap((folder, index) =>
    Array.from({ length: jobsInEach }, (_, each) => index * jobsInEach + each)
      .filter((seed) => seed % bodies === body)
      .map((seed) => pathToFileURL(path.join(folder, `w-${3000 + seed}.readings.yaml`)).href),
  );
