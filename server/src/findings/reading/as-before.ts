import type { Inspection } from '../../inspection/job/inspect';
import { reads } from '../../inspection/job/readings-by-id';
import { withoutSides } from '../../inspection/job/scope';
import type { Stage } from '../../inspection/job/stage';
import type { Reading } from '../../model/job';
import { shortList } from '../../wording/wording';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const asBefore: Rule = {
  name: 'reading/as-before',
  severity: 'information',
  since: '0.2',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary: 'A row says `as-before` without an earlier reading; or a job with such rows is signed off.',
    why: `\`as-before\` takes over the reading of an earlier measure. Where no earlier measure has numbers for the point, there is nothing to take over: that is a warning. In a closed
job the sign-off and the record name the points that were not read again, so that nobody takes the newest measure for a full one.`,
    example: `  - measure: as received
    readings:
      rail-tip-upper.L: as-before`,
    exampleIn: { place: 'entry' },
    mend: 'Read the point, or leave its row out. At the sign-off nothing need be done where the earlier reading is meant.',
    source: 'A rule of the program itself.',
  },
  ofJob: ({ inspection }: JobContext): Draft[] => {
    const taken: string[] = [];
    const drafts = inspection.stages.flatMap((stage) =>
      stage.asBefore.flatMap((row): Draft[] => {
        if (isReadBefore(inspection, stage, row)) {
          taken.push(row.id);
          return [];
        }
        const message = `no earlier measure has numbers for ${row.id}: there is nothing to take over`;
        return [{ place: row.key, severity: 'warning', message }];
      }),
    );
    const { signOff } = inspection.job;
    if (signOff === null || taken.length === 0) return drafts;
    const ids = shortList(withoutSides([...new Set(taken)]));
    return [
      ...drafts,
      { place: signOff.keyPlace, message: `not read again in a later measure, but taken as before: ${ids}` },
    ];
  },
};

const isReadBefore = ({ stages }: Inspection, { index }: Stage, { id }: Reading): boolean =>
  stages.some((each) => each.index < index && reads(each.measure, id));
