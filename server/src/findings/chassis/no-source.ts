import type { Rule } from '../rule/rule';

export const noSource: Rule = {
  name: 'chassis/no-source',
  severity: 'information',
  since: '0.1',
  failsCheck: 'always',
  page: {
    summary: 'The file does not say where its dimensions come from.',
    why: 'A dimension sheet of the maker, a sound donor car and the other side of a damaged one are not equally good references. Whoever reads the job later must be able to look the figures up, and a reference that was itself measured has an uncertainty that joins every verdict.',
    example: 'framewright: chassis/1\nvehicle: Marten five-door hatchback, 2021 on\n# no source: anywhere',
    exampleIn: {
      place: 'chassis',
      isAbsence: true,
      after: `points:
  latch: { centre: [3050, 0, 780] }`,
    },
    mend: 'State it: `source: { kind: published, reference: body dimension sheet 4, date: 2026-01-12 }`. For `donor`, `mirrored` and `measured` add `uncertainty`. A single point that comes from elsewhere states its own.',
    source: 'Common practice in the trade; JCGM 100:2008 (GUM) for the uncertainty of a reference.',
  },
  ofChassis: ({ chassis }) => {
    // with parents, it is said where the chain begins
    if (chassis.source !== null || chassis.chain.length > 1 || chassis.broken) return [];
    const points = [...chassis.points.values()];
    if (points.length > 0 && points.every((point) => point.source !== null)) return [];
    return [{ place: chassis.head, message: 'where these dimensions come from is not stated: add `source`' }];
  },
};
