import type { DiffChange, DiffJob, DiffReading, DiffStage } from '@framewright/schemas';
import type { Job, Measure, SignOff } from '../model/job';
import type { JobAnalysis } from '../workspace/workspace';
import { changeOf, inWords, type Pair, paired, pairedMaps } from './compared';
import { entryChanges, workBefore } from './entry-changes';
import { isSameRead, readIn, type StageSide, saysNothing, stageChange } from './stage-changes';
import { standing } from './standing';

/** What is another in a job, each side judged by its own chassis and settings. */
export function jobChanges(before: JobAnalysis, after: JobAnalysis): DiffJob {
  const [was, now] = [standing(before), standing(after)];
  const pairs = paired(stageSides(before), stageSides(after), ({ measure }) => measure.name, isSameMeasure);
  const stages = withMoves(pairs.map(stageChange), pairs);
  const measures = pairs.map(
    (pair): Pair<Measure> => ({
      before: pair.before?.measure ?? null,
      after: pair.after?.measure ?? null,
    }),
  );
  const entries = entryChanges({ before: before.job, after: after.job, measures });
  const head = headChanges(before.job, after.job);
  const told = stages.filter((stage) => !saysNothing(stage));
  const isOther =
    told.some((stage) => stage.status !== 'kept' || stage.readings.length > 0) ||
    entries.some(({ entry }) => !entry.startsWith('note ')) ||
    head.length > 0;
  const isSame = isSameSignature(before.job.signOff, after.job.signOff);
  const remains = (one: typeof was, other: typeof was): string[] =>
    (other?.remaining ?? []).filter((each) => !one?.remaining.includes(each));
  return {
    before: was,
    after: now,
    afterSignature:
      isSame && (now?.changed?.includes('readings') || (after.job.signOff?.readings === null && isOther)),
    signedAnew: before.job.signOff !== null && after.job.signOff !== null && !isSame,
    head,
    stages: told,
    entries,
    remains: { new: remains(was, now), gone: remains(now, was) },
  };
}

export const isSameJob = ({ before, after, signedAnew, head, stages, entries }: DiffJob): boolean =>
  !signedAnew &&
  [head, stages, entries].every((list) => list.length === 0) &&
  JSON.stringify(before) === JSON.stringify(after);

const isSameSignature = (one: SignOff | null, other: SignOff | null): boolean =>
  one !== null &&
  other !== null &&
  one.by === other.by &&
  one.date === other.date &&
  one.readings === other.readings &&
  one.chassis === other.chassis;

/** A measure may be the same by another name, or have no row yet: then nothing tells. */
const isSameMeasure = ({ measure: one }: StageSide, { measure: other }: StageSide): boolean => {
  const [was, now] = [readIn(one), readIn(other)];
  return now.size > 0 && pairedMaps(was, now).every(({ pair }) => isSameRead(pair.before, pair.after));
};

const stageSides = ({ job, inspection }: JobAnalysis): StageSide[] =>
  job.timeline.flatMap((measure, index) =>
    measure.kind === 'measure'
      ? [
          {
            measure,
            index,
            stage: inspection?.stages.find((stage) => stage.index === index) ?? null,
            behind: workBefore(job, index),
          },
        ]
      : [],
  );

/** A reading that one measure lost and another has as it was has moved: what lies between them counts for it now. */
function withMoves(stages: readonly DiffStage[], pairs: readonly Pair<StageSide>[]): DiffStage[] {
  const lost = pairs.flatMap(({ before, after }) =>
    before === null
      ? []
      : [...readIn(before.measure)]
          .filter(([name, read]) => Array.isArray(read) && !(after && readIn(after.measure).has(name)))
          .map(([name, read]) => ({ name, read, from: before.measure.name })),
  );
  const movedFrom = ({
    name,
    before,
    after,
  }: Pick<DiffReading, 'name' | 'before' | 'after'>): string | null =>
    before !== null
      ? null
      : (lost.find((each) => each.name === name && isSameRead(each.read, after))?.from ?? null);
  const moved = new Set<string>();
  const withOrigin = stages.map(
    (stage): DiffStage => ({
      ...stage,
      readings: stage.readings.map((reading): DiffReading => {
        const from = reading.status === 'added' ? movedFrom(reading) : null;
        if (from === null) return reading;
        moved.add(`${from}\n${reading.name}`);
        return { ...reading, status: 'moved', from };
      }),
    }),
  );
  // said once, where it stands now
  return withOrigin.map((stage) => ({
    ...stage,
    readings: stage.readings.filter(
      ({ status, name }) => status !== 'dropped' || !moved.has(`${stage.was ?? stage.name}\n${name}`),
    ),
  }));
}

function headChanges(before: Job, after: Job): DiffChange[] {
  const said = (what: string, of: (job: Job) => unknown): DiffChange[] =>
    changeOf(what, inWords(of(before)), inWords(of(after)));
  return [
    ...said('chassis', ({ chassisPath }) => chassisPath),
    ...said('order', ({ order }) => order),
    ...said('technician', ({ technician }) => technician),
    ...said('instrument', ({ instrument }) => instrument),
    ...said('axes', ({ axes }) => axes.join(', ')),
    ...said('base', ({ base }) => (base.kind === 'ids' ? base.ids : base.kind === 'auto' ? null : base)),
    ...said('conditions', ({ conditions }) => conditions),
    ...said('anchors', ({ anchors }) => anchors),
    ...said('scope', ({ scope }) => (scope?.length === 0 ? 'nothing' : scope)),
    ...keyedChanges('accepted', acceptedIn(before), acceptedIn(after)),
    ...keyedChanges('silenced', silencedIn(before), silencedIn(after)),
  ];
}

const keyedChanges = (
  word: string,
  before: ReadonlyMap<string, string>,
  after: ReadonlyMap<string, string>,
): DiffChange[] =>
  pairedMaps(before, after).flatMap(({ key, pair }) => changeOf(`${word} ${key}`, pair.before, pair.after));

const acceptedIn = ({ signOff }: Job): Map<string, string> =>
  new Map((signOff?.accepted ?? []).map(({ point, reason }) => [point.id, reason]));

/** Entries count from the top: of the place only the row stays what it is. */
const silencedIn = ({ ignores }: Job): Map<string, string> =>
  new Map(ignores.map(({ rule, at, reason }) => [`${rule} ${at.replace(/^\d+ ?/, '')}`.trim(), reason]));
