/** What `framewright init` writes: a repository that a shop can begin with. */

interface InitialFile {
  /** From the folder of the repository. */
  readonly path: string;
  readonly text: string;
  readonly isProgram?: boolean;
}

export const initialFiles: readonly InitialFile[] = [
  {
    path: '.framewright.yaml',
    text: `framewright: settings/1
# A closed job passes where every deviation is inside its limit (simple), or only where that is certain (guarded).
decision-rule: simple
`,
  },
  { path: 'specs/.gitkeep', text: '' },
  { path: 'jobs/.gitkeep', text: '' },
  {
    path: '.gitattributes',
    text: `# In a diff each piece is headed by its measure, or by the list that it stands in (git config diff.framewright-….xfuncname).
# Entries of a job stand in the order of the work: two people's entries must not be mixed by a program. Never merge=union here, which
# can put a reading from before a pull behind it; a conflict is right, and is settled by somebody who knows what was done first.
*.readings.yaml text diff=framewright-readings merge=text
*.chassis.yaml  text diff=framewright-chassis  merge=text
`,
  },
  {
    path: '.githooks/pre-commit',
    isProgram: true,
    text: `#!/bin/sh
# Refuses a commit with a malformed file, or with a closed job that fails its gate. What is staged is judged, and what rests on it.
exec framewright check --staged
`,
  },
  {
    path: '.pre-commit-config.yaml',
    text: `# For those who use pre-commit in place of .githooks: the same check.
repos:
  - repo: local
    hooks:
      - id: framewright
        name: framewright check
        entry: framewright check --staged
        language: system
        pass_filenames: false
        files: '(\\.(chassis|readings)|(^|/)\\.framewright)\\.yaml$'
`,
  },
  {
    path: '.github/workflows/framewright.yml',
    text: `# Checks every file at every push. How the program gets onto this machine is for the shop to say: add that step before the check, from
# a copy of the program that the shop keeps, in one stated version. Nothing is fetched by name here.
name: framewright
on: [push, pull_request]
jobs:
  check:
    runs-on: ubuntu-latest
    steps:
      - uses: actions/checkout@v4
      - uses: actions/setup-node@v4
        with: { node-version: 22 }
      - run: framewright check
`,
  },
  {
    path: '.gitlab-ci.yml',
    text: `# Checks every file at every push. How the program gets onto this machine is for the shop to say: add that step before the check, from
# a copy of the program that the shop keeps, in one stated version. Nothing is fetched by name here.
framewright:
  image: node:22
  script:
    - framewright check
`,
  },
  {
    path: '.vscode/extensions.json',
    text: `{ "recommendations": ["pinefield-body-works.framewright-vscode"] }
`,
  },
];

/** Choices of git for this repository, made where nobody made them. The head of a piece of a diff is what stands in brackets. */
export const initialGitConfig: readonly (readonly [key: string, value: string])[] = [
  ['core.hooksPath', '.githooks'],
  ['diff.framewright-readings.xfuncname', '^[ ]*-[ ]*(measure:.*)$'],
  ['diff.framewright-chassis.xfuncname', '^([a-z-]+:.*)$'],
];

/** What became of a file or of a choice. */
export interface Initial {
  readonly what: string;
  readonly became: 'written' | 'kept' | { readonly failed: string };
}

/** What a person is told, and whether all went well. */
export function initSaid(
  all: readonly Initial[],
  isRepository: boolean,
): { lines: string[]; complaints: string[] } {
  const of = (became: 'written' | 'kept') =>
    all.filter((each) => each.became === became).map(({ what }) => what);
  const [written, kept] = [of('written'), of('kept')];
  const complaints = all.flatMap(({ what, became }) =>
    typeof became === 'string' ? [] : `framewright: ${what} cannot be written: ${became.failed}`,
  );
  return {
    lines: [
      ...written.map((what) => `wrote ${what}`),
      ...(kept.length === 0 ? [] : [`left as it is: ${kept.join(', ')}`]),
      ...(isRepository
        ? []
        : ['this is no git repository: after `git init`, `framewright init` sets its hook and diffs too']),
      'next: reference dimensions into specs/NAME.chassis.yaml, jobs into jobs/NAME.readings.yaml',
    ],
    complaints,
  };
}
