import type { Rule } from '../rule/rule';

/** Raised where text becomes a tree and a model. */
export const syntax: Rule = {
  name: 'text/syntax',
  severity: 'error',
  since: '0.1',
  raisedBy: 'text',
  failsCheck: 'always',
  page: {
    summary: 'The text cannot be read here.',
    why: 'A bracket, a quote, a colon or a space is missing, or there is one too many, or a merge left its marks. Sound blocks around the place are still read and judged; what needs the whole job (coverage, base, sign-off) is held back, because a line that could not be read might have changed it.',
    example: '      rail-tip-lower.L: [2998.4, 450.1, 211.0',
    exampleIn: { place: 'row' },
    mend: 'Go to the place that is marked and put in what the message names. Mend the first such finding of a file first: one slip can cause others.',
    source:
      'YAML 1.2.2, https://yaml.org/spec/1.2.2/; tags and several documents in one file are left out of this language.',
  },
};
