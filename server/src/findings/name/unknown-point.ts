import type { Rule } from '../rule/rule';

/** Raised where names and files are looked up. */
export const unknownPoint: Rule = {
  name: 'name/unknown-point',
  severity: 'error',
  since: '0.1',
  raisedBy: 'names',
  failsCheck: 'always',
  page: {
    summary: 'A point is named that the chassis file does not have.',
    why: "A reading under a mistyped name is judged against nothing, or, worse, taken for another point's.",
    example: '      rail-tip-lwer.L: [2998.4, 450.1, 211.0]',
    exampleIn: { place: 'row' },
    mend: 'Take the name that is suggested if it is the point that was measured; else add the point to the chassis file.',
    source: 'The language page, schemas/README.md.',
  },
};
