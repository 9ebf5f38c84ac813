import { type AddedBecause, hasPoints, partsAddedToScope, withoutSides } from '../../inspection/job/scope';
import { shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const scope: Rule = {
  name: 'reading/scope',
  severity: 'information',
  since: '0.2',
  failsCheck: 'closed',
  inRecord: 'figures',
  page: {
    summary:
      'A part is judged although `scope` leaves it out, because it was worked on or has damage that is not answered.',
    why: `What was pulled, heated, cut, replaced or joined may have moved, whatever the repair was meant to be about. So such parts, and those with open damage, always belong to
the scope. Where the sheet has no point on such a part, nothing tells how it stands: that is a warning, and the record names it.`,
    example: `scope: [apron]                   # and front-rail.L was pulled`,
    exampleIn: {
      place: 'head',
      after: `  - pull: left rail out
    part: front-rail.L
  - release: all`,
    },
    mend: 'Add the part to `scope`, so that the file says what is judged. For a part without points, add points of it to the chassis file, or say in the record how it was checked.',
    source: 'Common practice in the trade: measure what was worked on.',
  },
  ofJob: ({ inspection }: JobContext): Draft[] => {
    const { job } = inspection;
    const added = partsAddedToScope(inspection);
    if (added.size === 0) return [];
    const place = job.scope?.[0]?.place ?? job.head;
    const ids = (because: AddedBecause, seen: boolean): string[] =>
      [...added].flatMap(([id, why]) => (why === because && hasPoints(inspection, id) === seen ? [id] : []));
    const because = ['worked on', 'damaged'] as const;
    const judged = because.flatMap((why) => phrase(ids(why, true), why));
    const unseen = because.flatMap((why) => phrase(ids(why, false), why));
    return [
      ...(judged.length > 0
        ? [{ place, message: `judged although it is not in the scope: ${judged.join('; ')}` }]
        : []),
      ...(unseen.length > 0
        ? [
            {
              place,
              severity: 'warning' as const,
              message: `no point tells how it stands, and it is not in the scope: ${unseen.join('; ')}`,
            },
          ]
        : []),
    ];
  },
};

const saidOf: Record<AddedBecause, string> = {
  'worked on': 'worked on',
  damaged: 'with damage not answered',
};

const phrase = (ids: readonly string[], because: AddedBecause): string[] =>
  ids.length === 0 ? [] : [`${shortList(withoutSides(ids))} (${saidOf[because]})`];
