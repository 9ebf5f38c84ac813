import { carRead } from '../inspection/cars/car';
import { carName, type Donor } from '../inspection/cars/references';
import { fileName } from '../model/file-name';
import { nameOf } from '../model/names';
import { type ReferencesMade, referencesInto } from '../tables/reference-import';
import { printable } from '../text/printable';
import { carLines } from '../wording/car-words';
import { type Files, fileKind } from '../workspace/files';
import { type ChassisAnalysis, type JobAnalysis, Workspace } from '../workspace/workspace';
import type { Output } from './check-selected';
import type { Target } from './collect';

interface Referencing extends Output {
  readonly into: Target;
  /** Of points, with or without a side; null: all that the file does not have. */
  readonly names: readonly string[] | null;
  readonly replace: boolean;
  readonly dryRun: boolean;
  /** Writes the file; null, or what went wrong. */
  write(text: string): string | null;
}

/**
 * Reference points of a body from cars that were measured.
 * @returns 0; 1 where no car, or no point, gives a reference; 2 where a file cannot be read or written
 */
export async function reference(
  files: Files,
  jobs: readonly Target[],
  referencing: Referencing,
): Promise<number> {
  const complain = (message: string, code: 1 | 2 = 2): number => {
    referencing.complain(printable(`framewright: ${message}`));
    return code;
  };
  const { into } = referencing;
  const workspace = new Workspace(files);
  const body = await bodyOf(workspace, into);
  if (typeof body === 'string') return complain(`${into.path}: ${body}`);
  const donors: Donor[] = [];
  for (const job of jobs) {
    const analysis = await jobOf(workspace, job);
    if (typeof analysis === 'string') return complain(`${job.path}: ${analysis}`);
    const donor = donorOf(analysis, body, donors);
    if (typeof donor === 'string') complain(`${job.path} gives no reference: ${donor}`, 1);
    else {
      donors.push(donor);
      for (const line of carLines(donor)) referencing.print(printable(line));
    }
  }
  if (donors.length === 0) return complain('no car gives a reference, so nothing was written', 1);
  const names = referencing.names && [...new Set(referencing.names.map(nameOf))];
  const made = referencesInto(body, donors, { names, replace: referencing.replace });
  return finished(body, made, referencing, complain);
}

function finished(
  body: ChassisAnalysis,
  { text, said, compared, refused, given }: ReferencesMade,
  { print, into, dryRun, write }: Referencing,
  complain: (message: string, code: 1 | 2) => number,
): number {
  for (const line of [...said, ...compared]) print(printable(line));
  for (const line of refused) complain(line, 1);
  if (given === 0) return complain('there is no new point to write', 1);
  if (text === null) return complain(`${into.path}: its text cannot take the points`, 2);
  if (dryRun) {
    const had = new Set(body.text.split('\n'));
    for (const line of text.split('\n')) if (!had.has(line)) print(printable(line));
    print('nothing was written: --dry-run');
    return 0;
  }
  const fault = write(text);
  if (fault !== null) return complain(fault, 2);
  print(printable(`${into.path}: ${given === 1 ? '1 point' : `${given} points`} written`));
  return 0;
}

async function bodyOf(workspace: Workspace, { uri }: Target): Promise<ChassisAnalysis | string> {
  if (fileKind(uri) !== 'chassis') return 'reference points go into a file whose name ends in .chassis.yaml';
  const analysis = await workspace.analysis(uri);
  if (!('findings' in analysis)) return analysis.message;
  if (analysis.kind !== 'chassis') return 'it is no chassis file';
  return analysis.tree.problems.length > 0 || analysis.chassis.broken
    ? 'its text cannot be read whole: see `framewright check`'
    : analysis;
}

async function jobOf(workspace: Workspace, { uri }: Target): Promise<JobAnalysis | string> {
  if (fileKind(uri) !== 'readings')
    return 'reference points come from files whose names end in .readings.yaml';
  const analysis = await workspace.analysis(uri);
  if (!('findings' in analysis)) return analysis.message;
  return analysis.kind === 'readings' ? analysis : 'it is no readings file';
}

/** The car of a job; in words, why it is none for this body. */
function donorOf(
  { inspection, job }: JobAnalysis,
  { chassis }: ChassisAnalysis,
  others: readonly Donor[],
): Donor | string {
  if (inspection === null) return 'its chassis file cannot be read, so it is not aligned';
  const own = inspection.chassis.uri;
  // a variant's points stand elsewhere: they are none of its parent
  if (own !== chassis.uri)
    return inspection.chassis.chain.some(({ uri }) => uri === chassis.uri)
      ? `it was measured on ${fileName(own)}, a variant of this file: its points can only go into that file`
      : 'it was measured on another body';
  const name = carName(job);
  if (others.some((other) => other.name === name))
    return `${name} is among the cars already: a car counts once`;
  const car = carRead(inspection);
  return car.kind === 'refused' ? car.reason : { name, car };
}
