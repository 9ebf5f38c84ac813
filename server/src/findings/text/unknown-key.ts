import type { Rule } from '../rule/rule';

/** Raised where text becomes a tree and a model. */
export const unknownKey: Rule = {
  name: 'text/unknown-key',
  severity: 'error',
  since: '0.1',
  raisedBy: 'text',
  failsCheck: 'always',
  safeFix: true,
  page: {
    summary: 'This key is not part of the language.',
    why: 'A mistyped key would otherwise be ignored without a word: a tolerance that is never applied, a `base` that is never used.',
    example: '  rail-tip-upper: { both: [3012, 452, 352], tolerence: 2 }',
    exampleIn: { place: 'point' },
    mend: 'Take the key that is suggested, or look it up in the language page. A remark of your own belongs in a comment behind `#` or in a `note:`.',
    source: 'The language page, schemas/README.md.',
  },
};
