import { expect } from 'vitest';
import { analysed } from './analysed';

/** A small body and jobs on it, for the rules of text and names. */
export const body = `framewright: chassis/1
vehicle: Marten
source: { kind: published }
parts:
  floor: { steel: mild, straighten: freely }
  front-rail: { sided: true, steel: mild, straighten: minor }
  apron: { sided: true, straighten: freely }
points:
  floor-front: { both: [1200, 420, 95], part: floor, base: true }
  floor-rear: { both: [-350, 455, 90], part: floor, base: true }
  rail-root-lower: { both: [1760, 441, 188], part: front-rail }
  rail-root-upper: { both: [1760, 441, 322], part: front-rail }
  rail-tip-lower: { both: [3012, 448, 210], part: front-rail }
  strut-top: { both: [2250, 561, 830], part: apron }
  latch: { centre: [3050, 12, 780] }
`;

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
