import type { Rule } from '../rule/rule';

/** Raised where text becomes a tree and a model. */
export const duplicateKey: Rule = {
  name: 'text/duplicate-key',
  severity: 'error',
  since: '0.1',
  raisedBy: 'text',
  failsCheck: 'always',
  page: {
    summary: 'The same key stands twice in one map.',
    why: 'Only one of two readings of the same point can count. The first one counts and the second is left out, so that a line copied and not yet renamed does no harm. But the second may be the right one.',
    example: `      rail-tip-lower.L: [2998.4, 450.1, 211.0]
      rail-tip-lower.L: [2990.2, 441.7, 349.8]`,
    exampleIn: { place: 'row' },
    mend: 'Give the second its own name, or remove one of them. Repeats of one reading are written as a list: `[[…], […]]`.',
    source: 'YAML 1.2.2, section 3.2.1.1: keys of a map are unique.',
  },
};
