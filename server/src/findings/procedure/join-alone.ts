import { isOnlyBolted } from '../../inspection/timeline/worked-parts';
import type { Chassis } from '../../model/chassis';
import type { Join } from '../../model/job';
import { partIds } from '../../model/resolve/resolved-job';
import { listPhrase, shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const joinAlone: Rule = {
  name: 'procedure/join-alone',
  severity: 'information',
  since: '0.2',
  failsCheck: 'closed',
  page: {
    summary:
      'A join does not say what the part was joined to, or that it is bolted on where the chassis file knows no bolts.',
    why: `Welding, bonding or riveting can move the metal on both sides of the seam. Where \`to\` names the other part, its earlier readings count no longer either. Without \`to\` only
those of the joined part are taken as out of date. A part that is bolted on moves nothing beside it; where the chassis file says that it is welded, bonded or riveted, one of
the two is wrong, and that is a warning.`,
    example: `  - join: front-rail.L
    with: welded`,
    exampleIn: { place: 'entry' },
    mend: "Name the parts that it was joined to: `to: [apron]`. A name without a side means both. How parts are joined, and what is tested about it, is the maker's to say.",
    source: 'Common practice in the trade.',
  },
  ofJob: ({ inspection: { job, chassis } }: JobContext): Draft[] =>
    job.timeline.flatMap((entry): Draft[] => {
      if (entry.kind !== 'join') return [];
      if (entry.how !== null && isOnlyBolted(entry.how)) return boltedAgainst(entry, chassis);
      if (entry.to !== null) return [];
      const names = shortList(entry.parts.map(({ id }) => id));
      return [
        {
          place: entry.keyPlace,
          message: `to what ${names} was joined is not stated: of earlier readings only those of the joined part are taken as out of date`,
        },
      ];
    }),
};

/** Parts that are said to be bolted on only, though the chassis file has them joined in a way that moves metal. */
function boltedAgainst({ parts, keyPlace }: Join, chassis: Chassis): Draft[] {
  const others = partIds(parts, chassis).flatMap((id) => chassis.parts.get(id) ?? []);
  const [first] = others.filter(({ attached }) => !isOnlyBolted(attached));
  if (first === undefined) return [];
  return [
    {
      place: keyPlace,
      severity: 'warning',
      message: `${first.id} is said to be bolted on, and by the chassis file it is ${listPhrase(first.attached)}: if it was, say so, and measure what it was joined to again`,
    },
  ];
}
