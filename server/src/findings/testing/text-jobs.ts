import { expect } from 'vitest';
import { martenWith } from '../../testing/marten';
import { analysed } from './analysed';

/** For the rules of text and names: jobs written line by line, on a few points of the Marten. */
export const body = martenWith([
  ...(['floor-front', 'floor-rear', 'rail-root-lower', 'rail-root-upper', 'rail-tip-lower'] as const),
  ...(['strut-top', 'latch'] as const),
]);

const head = 'framewright: readings/1\nchassis: marten.chassis.yaml\n';

/** A job with these lines above its timeline. */
export const jobWith = (lines: string, timeline = '  - measure: as received\n'): string =>
  `${head}${lines}${lines === '' ? '' : '\n'}timeline:\n${timeline}`;

/** A job whose timeline is one entry, written without its dash. */
export const jobOfEntry = (entry: string): string => jobWith('', `  - ${entry.replaceAll('\n', '\n    ')}\n`);

/** A job of one measuring with one row. */
export const jobOfRow = (value: string, id = 'rail-tip-lower.L'): string =>
  jobOfEntry(`measure: as received\nreadings:\n  ${id}: ${value}`);

/** A chassis file with one more point. */
export const bodyWith = (point: string): string => `${body}  ${point.replaceAll('\n', '\n  ')}\n`;

interface Said {
  readonly rule: string;
  /** The text of the range. */
  readonly at: string;
  readonly message: string;
  readonly fixes: readonly string[];
}

/** What is said of text and names, in text order. */
export async function saidOf(
  text: string,
  name: 'w.readings.yaml' | 'w.chassis.yaml' = 'w.readings.yaml',
  chassis = body,
): Promise<Said[]> {
  const { findings, text: read } = await analysed({ [name]: text, 'marten.chassis.yaml': chassis }, name);
  return findings
    .filter(({ rule }) => /^(text|name)\//.test(rule) && rule !== 'name/unused-part')
    .map(({ rule, range, message, replacements }) => ({
      rule,
      at: read.slice(range.start, range.end),
      message,
      fixes: replacements.map((each) => each.text),
    }));
}

/** A file beside the chassis file of that body. */
export const bodyFiles = (
  text: string,
  name = 'w.readings.yaml',
  more: Record<string, string> = {},
): Record<string, string> => ({ 'marten.chassis.yaml': body, ...more, [name]: text });

/** Nothing of text or names is said of a file. */
export async function expectNothingSaid(
  text: string,
  name: 'w.readings.yaml' | 'w.chassis.yaml' = 'w.readings.yaml',
): Promise<void> {
  expect(await saidOf(text, name)).toEqual([]);
}
