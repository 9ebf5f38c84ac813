import type { Inspection } from '../../inspection/job/inspect';
import { type Newest, newestOfAll } from '../../inspection/job/newest';
import { shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const underTension: Rule = {
  name: 'procedure/under-tension',
  severity: 'information',
  since: '0.1',
  failsCheck: 'closed',
  page: {
    summary: 'The newest reading of a point was taken under load.',
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
    return [...stillOn(inspection, [...groups.values()].flat()), ...[...groups.values()].map(draftOf)];
  },
};

/** Pulls that newest readings stand under and that nothing let off: perhaps only the entry is missing. */
function stillOn({ work }: Inspection, newest: readonly Newest[]): Draft[] {
  const last = Math.max(...newest.map(({ stage }) => stage.index));
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
