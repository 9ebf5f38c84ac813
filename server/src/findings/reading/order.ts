import { isEarlier } from '../../model/dates';
import type { Measure, SignOff, TimelineEntry } from '../../model/job';
import type { Draft, JobContext, Rule } from '../rule/rule';

export const order: Rule = {
  name: 'reading/order',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'closed',
  wholeJob: true,
  page: {
    summary:
      'A measure is dated earlier than one that stands above it, or the sign-off earlier than a measure.',
    why: `The timeline is in the order of the work, and everything is judged by that order: which reading is the newest, and whether anything was done since. A measure that
stands behind a pull though it was taken before it passes as a reading after the work. This happens where two versions of a file are merged. Nor can anybody sign for
a measure that was not taken yet.`,
    example: `  - measure: as received
    at: 2026-03-03T09:00
  - pull: left rail out
    part: front-rail.L
  - release: all
  - measure: finished
    at: 2026-03-02T16:30`,
    exampleIn: { place: 'entry' },
    mend: 'Put the entry where it belongs in the order of the work, or correct its date.',
    source: 'Common practice in the trade.',
  },
  ofJob: ({ inspection }: JobContext): Draft[] => {
    let latest: DatedMeasure | null = null;
    const { timeline, signOff } = inspection.job;
    const drafts = timeline.flatMap((entry): Draft[] => {
      if (!isDated(entry)) return [];
      const before = latest;
      if (before === null || !isEarlier(entry.at, before.at)) {
        latest = entry;
        return [];
      }
      return [
        {
          place: entry.keyPlace,
          message: `“${entry.name}” is dated ${entry.at}, before “${before.name}” above it (${before.at}): the order of the timeline is the order of the work`,
          related: [{ message: 'dated later, and stands above', place: before.keyPlace }],
        },
      ];
    });
    return [...drafts, ...signedEarly(signOff, latest)];
  },
};

function signedEarly(signOff: SignOff | null, latest: DatedMeasure | null): Draft[] {
  if (!signOff?.date || latest === null || !isEarlier(signOff.date, latest.at)) return [];
  return [
    {
      place: signOff.keyPlace,
      message: `signed on ${signOff.date}, before “${latest.name}” was measured (${latest.at}): one of the dates is wrong`,
      related: [{ message: 'dated later than the sign-off', place: latest.keyPlace }],
    },
  ];
}

type DatedMeasure = Measure & { readonly at: string };

const isDated = (entry: TimelineEntry): entry is DatedMeasure =>
  entry.kind === 'measure' && entry.at !== null;
