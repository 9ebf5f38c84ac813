import type { Rule } from '../rule/rule';

/** Raised where names and files are looked up. */
export const extendsCycle: Rule = {
  name: 'name/extends-cycle',
  severity: 'error',
  since: '0.1',
  raisedBy: 'names',
  failsCheck: 'always',
  supersedes: 'names',
  page: {
    summary: 'Chassis files extend each other in a circle.',
    why: 'None of them can be read first, so none of their dimensions can be relied on.',
    example: 'extends: ./marten-estate.chassis.yaml      # which itself extends this file',
    exampleIn: {
      place: 'chassis',
      files: {
        'specs/marten-estate.chassis.yaml': 'framewright: chassis/1\nextends: ./marten-own.chassis.yaml\n',
      },
    },
    mend: 'Let one file of the circle stand on its own: remove its `extends`, or let it extend a file outside the circle.',
    source: 'The language page, schemas/README.md.',
  },
};
