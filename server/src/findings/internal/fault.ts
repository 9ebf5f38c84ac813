import { fileName } from '../../model/file-name';
import { errorWords } from '../../text/error-words';
import type { Finding } from '../rule/finding';
import type { Rule } from '../rule/rule';

/** Raised where the program itself fails: at a rule in `rule-runner.ts`, elsewhere by who looks at the file. */
export const fault: Rule = {
  name: 'internal/fault',
  severity: 'error',
  since: '0.2',
  raisedBy: 'program',
  failsCheck: 'always',
  unchangeable: true,
  page: {
    summary: 'The program failed on this file, and did not judge it, or not by the rule that is named.',
    why: 'It is a fault of the program, not of the file. What the failed part would have found is not known: the file may be sound or not. So the file does not pass: `check` ends with 2 and no record is made of the job. Other files are judged as usual.',
    example: `framewright: readings/1          # not judged by base/weak: the program failed in that rule
chassis: ../specs/marten-hatch.chassis.yaml`,
    exampleIn: { notRun: 'only a fault of the program shows it; its own test makes one' },
    mend: 'Please report it, with a copy of the file and of the chassis files that it names. Until the program is corrected, judge this car by hand and by the maker’s procedure; undoing the last change of the text may help.',
    source: 'A rule of the program itself.',
  },
};

/** Where the program failed on a file, and with what. */
export interface Failure {
  /** `the inspection`, `that rule`. */
  readonly at: string;
  /** Rules that did not judge; empty: nothing was judged. */
  readonly rules: readonly string[];
  readonly error: unknown;
}

export function faultFinding(uri: string, text: string, { at, rules, error }: Failure): Finding {
  const by = rules.length === 0 ? '' : ` by ${listed(rules)}`;
  const message = `not judged${by}: the program failed in ${at} (${errorWords(error)}). This is a fault of the program, not of the file: please report it, with a copy of ${fileName(uri)}`;
  const end = /\r|\n/.exec(text)?.index ?? text.length;
  return {
    rule: fault.name,
    severity: fault.severity,
    message,
    range: { start: 0, end },
    related: [],
    ignored: null,
    replacements: [],
  };
}

/** What the program failed at in a file; null where it did not. */
export const faultIn = (findings: readonly Finding[]): Finding | null =>
  findings.find(({ rule }) => rule === fault.name) ?? null;

const mostNamed = 3;

const listed = (rules: readonly string[]): string =>
  rules.length <= mostNamed
    ? rules.join(', ')
    : `${rules.slice(0, mostNamed).join(', ')} and ${rules.length - mostNamed} more rules`;
