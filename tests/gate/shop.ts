import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { check, reportingHere } from '../../server/src/commands/check';
import type { FileReport } from '../../server/src/commands/file-report';
import { report } from '../../server/src/commands/report';
import { sealsOf } from '../../server/src/inspection/gate/seal';
import type { Files } from '../../server/src/workspace/files';
import { memoryFiles } from '../../server/src/workspace/testing/memory-files';
import { Workspace } from '../../server/src/workspace/workspace';

/** A repository in memory: texts by their paths. */
export type Shop = Readonly<Record<string, string>>;

export const jobPath = 'jobs/w-1174-finished.readings.yaml';
export const estatePath = 'specs/teal-estate.chassis.yaml';
export const hatchPath = 'specs/marten-hatch.chassis.yaml';
export const settingsPath = '.framewright.yaml';

const samples = path.resolve('samples');

/** The sample job that is finished, signed and passes, with its sheets and settings. */
export const signedShop: Shop = Object.fromEntries(
  [settingsPath, hatchPath, estatePath, jobPath].map((each) => [
    each,
    readFileSync(path.join(samples, each), 'utf8'),
  ]),
);

/** A sample that is open. */
export const sampleJob = (start: string): readonly [path: string, text: string] => {
  const name = readdirSync(path.join(samples, 'jobs')).find((each) => each.startsWith(start));
  if (name === undefined) throw new Error(`there is no sample ${start}`);
  return [`jobs/${name}`, readFileSync(path.join(samples, 'jobs', name), 'utf8')];
};

export const root = 'file:///shop/';

export function filesOf(shop: Shop): Files {
  const files = memoryFiles(
    Object.fromEntries(Object.entries(shop).map(([each, text]) => [root + each, text])),
    root,
  );
  return {
    ...files,
    read: async (uri) => (uri === root ? { kind: 'folder', message: 'it is a folder' } : files.read(uri)),
  };
}

/** What a reviewer has before him. */
export interface Outcome {
  /** Of `check` on the whole repository. */
  readonly code: number;
  /** What it says of every file and nobody silenced: `error sign-off/outside`. */
  readonly said: readonly string[];
  /** All lines that it prints. */
  readonly printed: string;
}

export async function outcome(shop: Shop): Promise<Outcome> {
  const files = filesOf(shop);
  const reports: FileReport[] = [];
  const lines: string[] = [];
  const reporting = reportingHere(files);
  const code = await check(
    files,
    [{ uri: root, path: '.' }],
    { open: false, summaries: false, verbose: true, coloured: false },
    { print: (line) => lines.push(line), complain: (line) => lines.push(line) },
    async function* (targets, options) {
      for await (const each of reporting(targets, options)) {
        reports.push(each);
        yield each;
      }
    },
  );
  const heard = reports.flatMap(({ findings }) => findings).filter(({ ignored }) => ignored === null);
  return {
    code,
    said: [...new Set(heard.map(({ severity, rule }) => `${severity} ${rule}`))].sort(),
    printed: lines.join('\n'),
  };
}

/** The dimensional record, as a page; empty where none is made. */
export async function recordOf(shop: Shop): Promise<string> {
  let page = '';
  await report(
    filesOf(shop),
    { uri: root + jobPath, path: jobPath },
    {
      print: () => {},
      complain: () => {},
      printAsPdf: null,
      paper: null,
      write: (written) => {
        page = written;
        return null;
      },
    },
  );
  return page;
}

/** The same repository, both seals of the job written anew over what now stands there, as somebody would who has the program. */
export async function sealedAnew(shop: Shop): Promise<Shop> {
  const analysis = await new Workspace(filesOf(shop)).analysis(root + jobPath);
  if (analysis.kind !== 'readings' || analysis.chassis === null || analysis.job.signOff === null) return shop;
  const { readings, chassis } = sealsOf(
    analysis.job,
    analysis.chassis,
    analysis.job.signOff,
    analysis.settings.decisionRule,
  );
  const text = shop[jobPath]
    .replace(/^( {2}readings: )seal1-\w+/m, `$1${readings}`)
    .replace(/^( {2}chassis: )seal1-\w+/m, `$1${chassis}`);
  return { ...shop, [jobPath]: text };
}
