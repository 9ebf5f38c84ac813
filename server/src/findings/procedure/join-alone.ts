import { shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const joinAlone: Rule = {
  name: 'procedure/join-alone',
  severity: 'information',
  since: '0.2',
  failsCheck: 'closed',
  page: {
    summary: 'A join does not say what the part was joined to.',
    why: `Welding, bonding or riveting can move the metal on both sides of the seam. Where \`to\` names the other part, its earlier readings count no longer either. Without \`to\` only
those of the joined part are taken as out of date.`,
    example: `  - join: front-rail.L
    with: welded`,
    exampleIn: { place: 'entry' },
    mend: "Name the parts that it was joined to: `to: [apron]`. A name without a side means both. How parts are joined, and what is tested about it, is the maker's to say.",
    source: 'Common practice in the trade.',
  },
  ofJob: ({ inspection }: JobContext): Draft[] =>
    inspection.job.timeline.flatMap((entry): Draft[] => {
      if (entry.kind !== 'join' || entry.to !== null || entry.how?.every((each) => each === 'bolted'))
        return [];
      const names = shortList(entry.parts.map(({ id }) => id));
      return [
        {
          place: entry.keyPlace,
          message: `to what ${names} was joined is not stated: of earlier readings only those of the joined part are taken as out of date`,
        },
      ];
    }),
};
