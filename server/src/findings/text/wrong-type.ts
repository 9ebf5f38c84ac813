import type { Rule } from '../rule/rule';

/** Raised where text becomes a tree and a model. */
export const wrongType: Rule = {
  name: 'text/wrong-type',
  severity: 'error',
  since: '0.1',
  raisedBy: 'text',
  failsCheck: 'always',
  page: {
    summary: 'A value does not have the form that is needed here.',
    why: 'Two numbers where three belong, a decimal comma, a word where a number belongs, a thousands mark: each could be read in more than one way, and a guess would be a wrong measurement. The entry is left out until it is clear.',
    example: '      rail-tip-lower.L: [2998,4, 450,1, 211,0]',
    exampleIn: { place: 'row' },
    mend: 'Write numbers with digits and one decimal point, without thousands marks and without a unit. Where one reading is clearly meant, a fix is offered: check it against the sheet before you take it.',
    source: 'The language page, schemas/README.md.',
  },
};
