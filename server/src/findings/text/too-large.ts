import type { Rule } from '../rule/rule';

/** Raised where text becomes a tree and a model. */
export const tooLarge: Rule = {
  name: 'text/too-large',
  severity: 'error',
  since: '0.1',
  raisedBy: 'text',
  failsCheck: 'always',
  page: {
    summary: 'The file, or what its aliases stand for, is larger than the program reads.',
    why: 'A job has some hundred readings. A file past 8 MB, or aliases that stand for more than a hundred thousand values, is another kind of file or an accident; reading it would stop the editor.',
    example: `a: &a [1, 1, 1, 1, 1, 1, 1, 1, 1]
b: &b [*a, *a, *a, *a, *a, *a, *a, *a, *a]
c: &c [*b, *b, *b, *b, *b, *b, *b, *b, *b]
d: &d [*c, *c, *c, *c, *c, *c, *c, *c, *c]
e: &e [*d, *d, *d, *d, *d, *d, *d, *d, *d]
f: &f [*e, *e, *e, *e, *e, *e, *e, *e, *e]`,
    exampleIn: { place: 'head' },
    mend: 'Split the file, or write the values out instead of aliases of aliases.',
    source: 'A limit of the program itself.',
  },
};
