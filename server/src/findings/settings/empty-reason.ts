import { emptyReasons } from '../../model/read/empty-reasons';
import type { Rule } from '../rule/rule';

const list = Object.entries(emptyReasons)
  .map(([language, words]) => `${language}: ${words}.`)
  .join('\n');

/** Raised where ignore comments are read, in `ignores.ts`. */
export const emptyReason: Rule = {
  name: 'settings/empty-reason',
  severity: 'warning',
  since: '0.2',
  raisedBy: 'ignores',
  failsCheck: 'always',
  page: {
    summary: 'The reason of a `framewright-ignore` comment says nothing.',
    why: `A silenced finding stands in the record with its reason, and somebody has to understand it years later. Such a comment still silences while the work goes on. In a closed job
it counts as not given: the finding stands as if there were no comment. A reason is empty when it has no word of three letters in a row (two in scripts without capitals), or is one of these:

${list}`,
    example: '      rail-tip-lower.L: [3012, 439.8, 210]   # framewright-ignore reading/outside: see above',
    exampleIn: { place: 'row' },
    mend: 'Write in a few words why the finding may stand: what was looked at, by whom, or which part makes it so.',
    source: 'A rule of the program itself; the list is chosen.',
  },
};
