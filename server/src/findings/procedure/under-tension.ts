import type { JudgedSpan } from '../../inspection/alignment/spans';
import { spanName } from '../../inspection/gate/current-spans';
import type { Inspection } from '../../inspection/job/inspect';
import { type Newest, newestOfAll, spanKey } from '../../inspection/job/newest';
import type { Stage } from '../../inspection/job/stage';
import { shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const underTension: Rule = {
  name: 'procedure/under-tension',
  severity: 'information',
  since: '0.1',
  failsCheck: 'closed',
  page: {
    summary: 'The newest reading of a point or a distance was taken under load.',
    why: `A reading under load is a peak: when the chains come off, the metal springs back, often by several millimetres. It says how far the pull went, never
where the point stays, so nothing is judged by it.`,
    example: `  - pull: left rail out
    part: front-rail.L
  - measure: under load
    readings: { rail-tip-lower.L: [3003.0, 441.0, 210.2] }`,
    exampleIn: { place: 'entry' },
    mend: "Relieve where the maker's procedure allows it, release, and measure these points again.",
    source: 'Common practice in the trade: measure after release.',
  },
  ofJob: ({ inspection }: JobContext): Draft[] => {
    if (!inspection.stages.some((stage) => stage.underTension)) return [];
    const groups = new Map<string, Newest[]>();
    for (const newest of newestOfAll(inspection).values()) {
      if (!newest.stage.underTension) continue;
      const key = `${newest.stage.index} ${newest.judged.point.part ?? ''}`;
      const group = groups.get(key);
      if (group) group.push(newest);
      else groups.set(key, [newest]);
    }
    const spans = spansUnderLoad(inspection);
    const indices = [...[...groups.values()].flat(), ...spans].map(({ stage }) => stage.index);
    return [...stillOn(inspection, indices), ...[...groups.values()].map(draftOf), ...spanDrafts(spans)];
  },
};

interface NewestSpan {
  readonly stage: Stage;
  readonly span: JudgedSpan;
}

/** Distances whose newest reading is a peak; where positions come from distances, their points say so already. */
function spansUnderLoad({ stages }: Inspection): NewestSpan[] {
  const newest = new Map<string, NewestSpan>();
  for (const stage of stages) for (const span of stage.spans) newest.set(spanKey(span), { stage, span });
  return [...newest.values()].filter(
    ({ stage, span: { from, to } }) =>
      stage.underTension && !stage.points.some(({ id }) => id === from || id === to),
  );
}

function spanDrafts(spans: readonly NewestSpan[]): Draft[] {
  if (spans.length === 0) return [];
  const one = spans.length === 1;
  return [
    {
      place: spans[0].span.reading.place,
      message: `the newest reading${one ? '' : 's'} of the distance${one ? '' : 's'} ${shortList(spans.map(({ span }) => spanName(span)))} ${one ? 'was' : 'were'} taken under load: measure again after release.`,
      related: spans
        .slice(1)
        .map(({ span }) => ({ message: `${spanName(span)}, under load`, place: span.reading.place })),
    },
  ];
}

/** Pulls that newest readings stand under and that nothing let off: perhaps only the entry is missing. */
function stillOn({ work }: Inspection, stageIndices: readonly number[]): Draft[] {
  const last = Math.max(...stageIndices);
  return work.pulls
    .filter(({ releasedAt, index }) => releasedAt === null && index < last)
    .map(({ pull }) => ({
      place: pull.keyPlace,
      message: `no release was entered after ${pull.title === '' ? 'this pull' : `“${pull.title}”`}; if it is off, enter it`,
    }));
}

function draftOf(group: readonly Newest[]): Draft {
  const ids = group.map(({ judged }) => judged.id);
  const subject = ids.length === 1 ? 'the newest reading of' : 'the newest readings of';
  return {
    place: group[0].judged.reading.key,
    message: `${subject} ${shortList(ids)} ${ids.length === 1 ? 'was' : 'were'} taken under load: measure again after release.`,
    related: group
      .slice(1)
      .map(({ judged }) => ({ message: `${judged.id}, under load`, place: judged.reading.key })),
  };
}
