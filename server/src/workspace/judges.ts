import type { Rule } from '../findings/rule/rule';
import { rules } from '../findings/rule-list';
import { inspected } from '../inspection/job/inspect';
import { parseText } from '../text/yaml/parse';

/** What a file is read and judged by: the same everywhere but in tests, which hand in some that fail. */
export interface Judges {
  readonly parse: typeof parseText;
  readonly inspect: typeof inspected;
  readonly rules: readonly Rule[];
}

export const ownJudges: Judges = { parse: parseText, inspect: inspected, rules };
