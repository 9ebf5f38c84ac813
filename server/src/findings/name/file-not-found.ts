import type { Rule } from '../rule/rule';

/** Raised where names and files are looked up. */
export const fileNotFound: Rule = {
  name: 'name/file-not-found',
  severity: 'error',
  since: '0.1',
  raisedBy: 'names',
  failsCheck: 'always',
  supersedes: 'names',
  page: {
    summary: 'The file that is named cannot be read.',
    why: 'A job without its chassis file has nothing to be judged by, and a chassis file without the one that it extends is only half of a body. Files outside the repository, and links that lead out of it, are refused, so that the record of a job stays complete when it is copied or looked at years later.',
    example: 'chassis: ../spec/marten-hatch.chassis.yaml      # the folder is called specs',
    exampleIn: { place: 'head' },
    mend: 'Correct the path. It starts from the folder of the file that it is written in; `..` is the folder above.',
    source: 'The language page, schemas/README.md.',
  },
};
