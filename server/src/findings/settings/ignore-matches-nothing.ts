import type { Rule } from '../rule/rule';

/** Raised where a settings file is read, in `workspace/ignore-problems.ts`: it needs to know which files there are. */
export const ignoreMatchesNothing: Rule = {
  name: 'settings/ignore-matches-nothing',
  severity: 'warning',
  since: '0.2',
  raisedBy: 'settings',
  failsCheck: 'always',
  page: {
    summary: 'An entry of `ignore` in the settings leaves nothing out.',
    why: 'Somebody believes that those files are not looked at. A mistyped folder, or one that was renamed, is checked with all the others.',
    example: 'ignore: [archive, trials/*]      # nothing lies in trials',
    exampleIn: { place: 'settings' },
    mend: "Name a folder or file by its path from the settings file's own folder, or by a pattern as in `.gitignore` (then it may lie in any folder below), or remove the entry. A folder outside can be ignored by a settings file above it only.",
    source: 'A rule of the program itself.',
  },
};
