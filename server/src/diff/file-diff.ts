import type { DiffBody, DiffFile } from '@framewright/schemas';
import { fileName } from '../model/file-name';
import type { Analysis, ChassisAnalysis, JobAnalysis } from '../workspace/workspace';
import { chassisChanges, isSameBody } from './chassis-changes';
import { chassisLines, noBody } from './chassis-lines';
import { isSameJob, jobChanges } from './job-changes';
import { jobLines } from './job-lines';
import { jobVerdict } from './job-verdict';
import { counted, type Line, line } from './line';
import { settingsDiff } from './settings-diff';
import { standing } from './standing';
import type { Found, Resting, Sides, Told } from './told';
import { bodyCounts, sameMeaning, standingChange, verdictFirst } from './verdict-words';

/**
 * What became of a file. Its meaning is unknown where a side of it, or of a job that rests on it, cannot be judged, whatever else differs: who lets
 * a change pass by what is told must not take half of it for all.
 */

export const nothingRests: Resting = { variants: [], touches: [], untouched: 0 };
/** Of files by themselves. */
export const notAsked: Resting = { ...nothingRests, untouched: null };

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
  const isJudged = resting.touches.every(({ before, after }) => before !== null && after !== null);
  const file: DiffFile = { ...base, ...told.facts, ...(isJudged ? {} : { meaning: 'unknown' }) };
  const noted = file.notes.map((note) => line(note, file.meaning === 'unknown'));
  const renamed = was === null ? [] : [line(`it was called ${was}`)];
  return { file, lines: [...noted, ...renamed, ...told.lines] };
}

function ofKind(sides: Sides, resting: Resting): Found {
  const { before, after, status } = sides;
  if (before === null && after === null)
    return { facts: { meaning: 'unknown', verdict: 'it cannot be judged' }, lines: [] };
  if (before === null || after === null) {
    const lone = after ?? before;
    if (lone?.kind === 'settings' && (status === 'added' || status === 'deleted'))
      return settingsDiff(before, after, sides, resting);
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
    return settingsDiff(before, after, sides, resting);
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
    return { facts: { meaning: state === null ? 'unknown' : 'different', verdict }, lines };
  }
  const what =
    lone?.kind === 'chassis'
      ? `body of ${counted(lone.chassis.points.size, 'point')} and ${counted(lone.chassis.parts.size, 'part')}`
      : 'settings';
  return {
    facts: { meaning: 'different', verdict: verdictFirst([`${word} ${what}`], resting) },
    lines: touches,
  };
}

function ofJob(before: JobAnalysis, after: JobAnalysis): Found {
  const job = jobChanges(before, after);
  const isSame = isSameJob(job);
  const notes = [...cannot(before, 'before'), ...cannot(after, 'now')];
  const isJudged = job.before !== null && job.after !== null && notes.length === 0;
  const meaning = !isJudged ? 'unknown' : isSame ? 'same' : 'different';
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
      meaning: isBroken ? 'unknown' : isSame ? 'same' : 'different',
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
