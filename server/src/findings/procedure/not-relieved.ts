import { partHistories, replacedBetween } from '../../inspection/job/part-history';
import { listPhrase } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const notRelieved: Rule = {
  name: 'procedure/not-relieved',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  page: {
    summary: 'A pull was released without stress being relieved on its part while it was under load.',
    why: `Metal that is only pulled springs back farther, and keeps moving slowly after it was measured: the stress of the old bend is still in it. Dressing it
with hammer and dolly round the bend while the load stands lets it settle. The maker's procedure decides whether and how; stand clear of the
line of the chain.`,
    example: `  - pull: left rail out
    part: front-rail.L
  - measure: under load
    readings: { rail-tip-lower.L: [3003.0, 441.0, 210.2] }
  - release: all                  # no relieve: [front-rail.L] before it`,
    exampleIn: { place: 'entry' },
    mend: `If it was done, write it where it was done: \`- relieve: [front-rail.L]\` between the pull and its release. If not, pull again as the maker's
procedure allows, relieve, release and measure.`,
    source: 'Common practice in the trade: relieve stress under load, measure after release.',
  },
  ofJob: ({ inspection }: JobContext): Draft[] => {
    const histories = new Map(partHistories(inspection).map((history) => [history.part.id, history]));
    return inspection.work.pulls.flatMap(({ pull, index, partIds, releasedAt, relieved }): Draft[] => {
      if (relieved || releasedAt === null || partIds.length === 0) return [];
      const gone = partIds.every((id) => histories.has(id) && replacedBetween(histories.get(id)!, index));
      if (gone) return [];
      const release = inspection.job.timeline[releasedAt];
      return [
        {
          place: pull.keyPlace,
          message: `${listPhrase(partIds)} is pulled and released, but stress was not relieved in between: it springs back farther and keeps moving slowly.`,
          related: [{ message: 'released here', place: release.keyPlace }],
        },
      ];
    });
  },
};
