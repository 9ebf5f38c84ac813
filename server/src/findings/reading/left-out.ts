import type { Rule } from '../rule/rule';

export const leftOut: Rule = {
  name: 'reading/left-out',
  severity: 'information',
  since: '0.2',
  failsCheck: 'closed',
  page: {
    summary: 'A row among the readings has all its numbers, and stands as a comment.',
    why: 'Rows that wait as comments are taken in one by one as the points are read. One that was filled in and left behind its `#` looks read to everybody, and counts for nothing.',
    example: '      # latch: [3050, 9, 780]',
    exampleIn: { place: 'row' },
    mend: 'Take it in, as the fix does, or delete the line where the numbers are not to count.',
    source: 'Common practice in the trade.',
  },
  ofJob: ({ inspection: { job, chassis } }) =>
    job.signOff !== null
      ? []
      : job.leftOut
          .filter(({ id }) => chassis.points.has(id))
          .map(({ id, place, mark }) => ({
            place,
            message: `${id} has its numbers but stands as a comment: is it to count?`,
            replacements: [{ title: `Take ${id} in`, place: mark, text: '' }],
          })),
};
