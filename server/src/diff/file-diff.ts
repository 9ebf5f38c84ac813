import type { DiffBody, DiffFile } from '@framewright/schemas';
import { fileName } from '../model/file-name';
import { ignoreEntries } from '../model/read/ignore-entries';
import type { Analysis, ChassisAnalysis, JobAnalysis } from '../workspace/workspace';
import { chassisChanges, isSameBody } from './chassis-changes';
import { chassisLines } from './chassis-lines';
import { statedChanges } from './compared';
import { isSameJob, jobChanges } from './job-changes';
import { jobLines } from './job-lines';
import { jobVerdict } from './job-verdict';
import { changeText, counted, type Line, line } from './line';
import { standing } from './standing';
import { bodyCounts, sameMeaning, standingChange, verdictFirst } from './verdict-words';

/** One file of two sides, as each side has it. */
export interface Sides {
  readonly path: string;
  /** How it was called; null: as now. */
  readonly was: string | null;
  readonly status: DiffFile['status'];
  /** Null: there is no such file there, or nothing could be made of it, as a note says. */
  readonly before: Analysis | null;
  readonly after: Analysis | null;
  /** What could not be had. */
  readonly notes: readonly string[];
}

/** What rests on a file. */
export type Resting = Pick<DiffFile, 'variants' | 'touches' | 'untouched'>;

export const nothingRests: Resting = { variants: [], touches: [], untouched: 0 };
/** Of files by themselves. */
export const notAsked: Resting = { ...nothingRests, untouched: null };

/** What became of a file, with its lines for people. */
export interface Told {
  readonly file: DiffFile;
  readonly lines: readonly Line[];
}

export function fileDiff(sides: Sides, resting: Resting): Told {
  const { path, was, status, notes } = sides;
  const base = {
    path,
    was,
    status,
    notes: [...notes],
    job: null,
    chassis: null,
    settings: null,
    ...resting,
  };
  const told = ofKind(sides, resting);
  const file: DiffFile = { ...base, ...told.facts };
  const noted = file.notes.map((note) => line(note, file.meaning === 'unknown'));
  const renamed = was === null ? [] : [line(`it was called ${was}`)];
  return { file, lines: [...noted, ...renamed, ...told.lines] };
}

interface Found {
  readonly facts: Pick<DiffFile, 'meaning' | 'verdict'> & Partial<DiffFile>;
  readonly lines: readonly Line[];
}

function ofKind(sides: Sides, resting: Resting): Found {
  const { before, after, status } = sides;
  if (before === null && after === null)
    return { facts: { meaning: 'unknown', verdict: 'it cannot be judged' }, lines: [] };
  if (before === null || after === null) {
    const lone = after ?? before;
    return status === 'added' || status === 'deleted'
      ? oneSided(lone, status, resting)
      : {
          facts: { meaning: 'unknown', verdict: `${before === null ? 'before it' : 'it'} cannot be judged` },
          lines: [],
        };
  }
  if (before.kind === 'readings' && after.kind === 'readings') return ofJob(before, after);
  if (before.kind === 'chassis' && after.kind === 'chassis') return ofChassis(before, after, resting);
  if (before.kind === 'settings' && after.kind === 'settings')
    return ofSettings(statedOf(before), statedOf(after), resting);
  const verdict = `it is a ${after.kind} file now, and was a ${before.kind} file`;
  return { facts: { meaning: 'different', verdict }, lines: [] };
}

/** A file that only one side has. */
function oneSided(lone: Analysis | null, status: 'added' | 'deleted', resting: Resting): Found {
  const word = status === 'added' ? 'new' : 'deleted';
  const touches = chassisLines(noBody, resting, 'mm');
  if (lone?.kind === 'readings') {
    const state = standing(lone);
    const verdict = `${word} job: ${standingChange(state, state)}`;
    const lines = (state?.remaining ?? []).map((each) =>
      line(`${status === 'added' ? 'remains' : 'remained'}: ${each}`),
    );
    return { facts: { meaning: 'different', verdict }, lines };
  }
  const what =
    lone?.kind === 'chassis'
      ? `body of ${counted(lone.chassis.points.size, 'point')} and ${counted(lone.chassis.parts.size, 'part')}`
      : 'settings';
  const verdict = lone?.kind === 'chassis' ? verdictFirst([`${word} ${what}`], resting) : `${word} ${what}`;
  return { facts: { meaning: 'different', verdict }, lines: touches };
}

const noBody: DiffBody = { head: [], points: [], limits: [], facts: [], parts: [], spans: [] };

function ofJob(before: JobAnalysis, after: JobAnalysis): Found {
  const job = jobChanges(before, after);
  const isSame = isSameJob(job);
  const notes = [...cannot(before, 'before'), ...cannot(after, 'now')];
  const meaning =
    job.before === null || job.after === null || (isSame && notes.length > 0)
      ? 'unknown'
      : isSame
        ? 'same'
        : 'different';
  return {
    facts: { meaning, verdict: jobVerdict(job, isSame && meaning === 'same', after.job.unit), job },
    lines: [...notes, ...jobLines(job, after.job.unit)],
  };
}

/** Why a side cannot be judged. */
function cannot({ inspection, findings, job, chassis }: JobAnalysis, side: string): Line[] {
  const why =
    findings.find(({ severity }) => severity === 'error')?.message ?? 'its chassis file cannot be had';
  if (inspection === null) return [line(`${side}: nothing is judged: ${why}`, true)];
  return job.broken || chassis?.broken ? [line(`${side}: nothing can be concluded: ${why}`, true)] : [];
}

function ofChassis(before: ChassisAnalysis, after: ChassisAnalysis, resting: Resting): Found {
  const chassis = chassisChanges(before.chassis, after.chassis);
  const isSame = isSameBody(chassis) && resting.touches.length === 0;
  const isBroken = before.chassis.broken || after.chassis.broken;
  return {
    facts: {
      meaning: isSame ? (isBroken ? 'unknown' : 'same') : 'different',
      verdict:
        isSame && !isBroken
          ? sameMeaning(resting)
          : verdictFirst(
              isSameBody(chassis) && isBroken ? ['nothing that can be read differs'] : bodyCounts(chassis),
              resting,
            ),
      chassis,
    },
    lines: [
      ...errorLines(before, 'before'),
      ...errorLines(after, 'now'),
      ...chassisLines(chassis, resting, after.chassis.unit),
    ],
  };
}

/** A side that could not be read whole: where its first error stands. */
function errorLines({ uri, text, chassis, findings }: ChassisAnalysis, side: string): Line[] {
  if (!chassis.broken) return [];
  const name = fileName(uri);
  const lines = findings
    .filter(({ severity }) => severity === 'error')
    .map(({ range }) => text.slice(0, range.start).split('\n').length);
  const where =
    lines.length === 0
      ? `a file that ${name} extends has errors`
      : `${name} has errors, the first in line ${Math.min(...lines)}`;
  return [line(`${side}: ${where}: what could not be read there is not compared`, true)];
}

/** What a settings file itself states; which file has the say in what is no statement of it. */
function statedOf({ settings: { saidBy: _, ...stated }, text }: Analysis): object {
  return { ...stated, ignore: ignoreEntries(text) };
}

function ofSettings(before: object, after: object, resting: Resting): Found {
  const settings = statedChanges(before, after).map((change) => ({
    ...change,
    what: settingWords[change.what] ?? change.what,
  }));
  const isSame = settings.length === 0;
  return {
    facts: {
      meaning: isSame ? 'same' : 'different',
      verdict:
        isSame && resting.touches.length === 0
          ? sameMeaning(resting)
          : verdictFirst(
              [isSame ? 'same meaning' : `${counted(settings.length, 'setting')} changed`],
              resting,
            ),
      settings,
    },
    lines: [
      ...chassisLines(noBody, resting, 'mm'),
      ...settings.map((change) => line(changeText(change), change.what !== 'tables')),
    ],
  };
}

const settingWords: Readonly<Record<string, string>> = {
  severities: 'rules',
  decisionRule: 'decision-rule',
  adviseUncertaintyMm: 'advise-uncertainty',
  calibrationMonths: 'calibration-months',
  signedSince: 'signed-since',
};

/** What a parent's change is to a variant: what reaches it, and of which of the changed names it states its own. */
export function variantChange(
  path: string,
  ofParent: DiffBody,
  before: ChassisAnalysis,
  after: ChassisAnalysis,
): DiffFile['variants'][number] {
  const own = chassisChanges(before.chassis, after.chassis);
  const namesOf = (body: DiffBody) =>
    new Set([...body.points, ...body.limits, ...body.facts, ...body.parts].map(({ id }) => id));
  const reached = namesOf(own);
  return {
    path,
    passes: bodyCounts(own),
    keeps: [...namesOf(ofParent)].filter((id) => !reached.has(id)),
  };
}
