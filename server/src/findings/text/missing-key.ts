import type { Rule } from '../rule/rule';

/** Raised where text becomes a tree and a model. */
export const missingKey: Rule = {
  name: 'text/missing-key',
  severity: 'error',
  since: '0.1',
  raisedBy: 'text',
  failsCheck: 'always',
  page: {
    summary: 'Something that must be stated is missing.',
    why: 'Without it the entry cannot be used: a cut without its place says nothing about what is new, a job without its chassis file has nothing to be judged by.',
    example: '  - section: front-rail.R      # at: is missing',
    exampleIn: { place: 'entry' },
    mend: 'Add the key that the message names.',
    source: 'The language page, schemas/README.md.',
  },
};
