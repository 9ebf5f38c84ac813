import type { Rule } from '../rule/rule';

/** Raised where ignore comments are read, in `ignores.ts`. */
export const unusedIgnore: Rule = {
  name: 'settings/unused-ignore',
  severity: 'warning',
  since: '0.1',
  raisedBy: 'ignores',
  failsCheck: 'always',
  unneeded: true,
  page: {
    summary: 'A `framewright-ignore` comment silences nothing, or gives no reason.',
    why: 'A comment that outlives its cause hides the next real finding on that line, and every silenced finding stands in the record of the job.',
    example:
      '      rail-tip-lower.L: [3011.8, 448.2, 210.1]   # framewright-ignore reading/outside: bracket renewed later',
    exampleIn: { place: 'row' },
    mend: 'Remove the comment, or correct the rule name or the place: it stands on the line that it is about, or alone on the line above, and gives a reason in words after a colon. Where the rule could not run (the chassis file is missing, the text is broken, the stage or the reading is not judged) the comment is not reported: it may be needed once that is corrected.',
    source: 'A rule of the program itself.',
  },
};
