import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { sealsOf } from '../../../../tests/seal/seal.mjs';
import { signOffState } from '../../inspection/gate/sign-off';
import { analysed } from '../testing/analysed';

/** The signed sample passes, and each single spoiling of it is caught by name. */

const read = (path: string): string =>
  readFileSync(new URL(`../../../../samples/${path}`, import.meta.url), 'utf8');
const name = 'jobs/w-1174-finished.readings.yaml';
const sample = read(name);
const sheets = {
  'specs/marten-hatch.chassis.yaml': read('specs/marten-hatch.chassis.yaml'),
  'specs/teal-estate.chassis.yaml': read('specs/teal-estate.chassis.yaml'),
};

/** Signed anew, so that a spoiling is seen for what it is. */
function resealed(text: string): string {
  // a text that no reader takes cannot be sealed
  if (text.includes('[rear-rail.L, {')) return text;
  const seals = sealsOf(text, Object.values(sheets).reverse());
  return text
    .replace(/^( {2}readings: )seal1-\w+$/m, `$1${seals.readings}`)
    .replace(/^( {2}chassis: )seal1-\w+$/m, `$1${seals.chassis}`);
}

/** The rules of procedure and sign-off that stand against a job above information, and whether its gate is passed. */
async function judged(
  given: string,
  specs = sheets,
): Promise<{ rules: string[]; passes: boolean | null; remaining: readonly string[] }> {
  const text = given.replaceAll('\r', '') === sample ? given : resealed(given);
  const analysis = await analysed({ ...specs, [name]: text }, name);
  if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error('the job is not judged');
  const found = analysis.findings.filter(
    ({ rule, severity }) => /^(procedure|sign-off)\//.test(rule) && severity !== 'information',
  );
  const { passes, remaining } = signOffState(analysis.inspection, analysis.settings);
  return { rules: [...new Set(found.map(({ rule }) => rule))].sort(), passes, remaining };
}

/** Text with one piece changed; it has to be there. */
function spoilt(text: string, piece: string | RegExp, by: string): string {
  const result = text.replace(piece, by);
  expect(result).not.toBe(text);
  return result;
}

const finishedAt = sample.indexOf('- measure: finished');
const [before, finished] = [sample.slice(0, finishedAt), sample.slice(finishedAt)];
const reading = (id: string): RegExp => new RegExp(`^ +${id.replace('.', '\\.')}:.*\n`, 'm');
const inFinished = (piece: string | RegExp, by: string): string => before + spoilt(finished, piece, by);
const beforeSigning = (entries: string): string => spoilt(sample, '\nsign-off:', `${entries}\nsign-off:`);
const lastPull = '  - pull: left rear rail, once more\n    part: rear-rail.L\n';

test('the signed sample passes', async () => {
  expect(await judged(sample)).toEqual({ rules: [], passes: true, remaining: [] });
});

test('so it does with the line ends of another checkout', async () => {
  const crlf = (text: string) => text.replaceAll('\n', '\r\n');
  const turned = Object.fromEntries(
    Object.entries(sheets).map(([path, text]) => [path, crlf(text)]),
  ) as typeof sheets;
  expect((await judged(crlf(sample), turned)).passes).toBe(true);
});

describe('one reading out', () => {
  const ids = [
    'rear-rail-end-upper.L',
    'rear-rail-middle-lower.R',
    'rear-panel-latch',
    'tailgate-corner.L',
    'rear-rail-root-upper.R',
  ];
  test.each(ids)('%s', async (id) => {
    const row = finished.match(reading(id))![0];
    const off = row.replace(/\[ *(-?[\d.]+),/, (_, x) => `[${(Number(x) + 6).toFixed(1)},`);
    expect(off).not.toBe(row);
    const { rules, passes, remaining } = await judged(inFinished(row, off));
    expect({ rules, passes, remaining }).toEqual({
      rules: ['sign-off/outside'],
      passes: false,
      remaining: [`${id}: outside`],
    });
  });

  test('by a little more than its limit: undecided', async () => {
    const analysis = await analysed({ ...sheets, [name]: sample }, name);
    if (analysis.kind !== 'readings') throw new Error('the job is not judged');
    const { deviation } = analysis
      .inspection!.stages.at(-1)!
      .points.find(({ id }) => id === 'tailgate-shoulder.L')!;
    // the arm looks rearward: its first number falls as the point goes forward
    const x = (1050 - (3.05 - deviation[0]!)).toFixed(1);
    const { rules, passes, remaining } = await judged(
      inFinished('tailgate-shoulder.L:      [ 1050.0', `tailgate-shoulder.L:      [ ${x}`),
    );
    expect({ rules, passes, remaining }).toEqual({
      rules: ['sign-off/undecided'],
      passes: false,
      remaining: ['tailgate-shoulder.L: undecided'],
    });
  });
});

describe('one missing', () => {
  // what was worked on after its reading before: the left rail, cut, and the panel, replaced
  const ids = [
    'rear-rail-tip-lower.L',
    'rear-rail-root-lower.L',
    'rear-rail-joint-upper.L',
    'rear-panel-latch',
    'rear-panel-lower.R',
  ];
  test.each(ids)('%s', async (id) => {
    const { rules, passes, remaining } = await judged(inFinished(reading(id), ''));
    expect({ rules, passes }).toEqual({ rules: ['sign-off/unmeasured'], passes: false });
    const outside = id.includes('root') || id.includes('joint') ? '' : ', outside when last read';
    expect(remaining).toEqual([`${id}: not measured since the last work${outside}`]);
  });

  test('never read at all', async () => {
    const never = spoilt(sample, /^ +rear-rail-end-lower\.R:.*\n/gm as RegExp, '');
    expect((await judged(never)).remaining).toEqual(['rear-rail-end-lower.R: not measured']);
  });

  test('unreachable', async () => {
    const { remaining } = await judged(inFinished(/rear-panel-latch:.*/, 'rear-panel-latch: unreachable'));
    expect(remaining).toEqual(['rear-panel-latch: not measured since the last work, outside when last read']);
  });
});

test.each(['rear-rail.L', 'tailgate-opening'])('one relieve missing: %s', async (part) => {
  const { rules } = await judged(spoilt(sample, `  - relieve: [${part}]\n`, ''));
  expect(rules).toEqual(['procedure/not-relieved']);
});

describe('one pull after', () => {
  test('released: what was measured no longer counts', async () => {
    const { rules, passes } = await judged(beforeSigning(`${lastPull}  - relieve: all\n  - release: all\n`));
    expect(rules).toContain('sign-off/unmeasured');
    expect(passes).toBe(false);
  });

  test('not released, its peak read', async () => {
    const { rules, passes, remaining } = await judged(
      beforeSigning(
        `${lastPull}  - measure: under load\n    readings:\n      rear-rail-tip-lower.L: [ 1005.4, -391.6,  874.5]\n`,
      ),
    );
    expect(rules).toContain('sign-off/tension');
    expect(rules).not.toContain('sign-off/unmeasured');
    expect(passes).toBe(false);
    expect(remaining).toContain('rear-rail.L: under tension');
  });
});

describe('one thing done that the maker forbids', () => {
  const cases: [string, string, string][] = [
    [
      'the cut outside the band',
      spoilt(sample, '    at: -1090\n', '    at: -1020\n'),
      'procedure/section-band',
    ],
    [
      'the cut in straightened metal',
      spoilt(sample, '    at: -1090\n', '    at: -1300\n'),
      'procedure/section-in-straightened',
    ],
    [
      'too much heat',
      spoilt(
        sample,
        '  - replace: rear-panel\n',
        '  - heat: rear-rail.R\n    to: 240 C\n    for: 60 s\n  - replace: rear-panel\n',
      ),
      'procedure/heat',
    ],
    [
      'a kink seen first, on the base’s side of the cut',
      spoilt(
        sample,
        '  - pull: left rear rail back',
        '  - observe: kink\n    part: rear-rail.L\n    at: -900\n  - pull: left rear rail back',
      ),
      'procedure/kinked',
    ],
  ];
  test.each(cases)('%s', async (_, text, rule) => {
    const { rules, passes } = await judged(text);
    expect(rules).toContain(rule);
    expect(rules).toContain('sign-off/procedure');
    expect(passes).toBe(false);
  });

  test('a kink that the cut took away is no longer in the car', async () => {
    const text = spoilt(
      sample,
      '  - pull: left rear rail back',
      '  - observe: kink\n    part: rear-rail.L\n    at: -1300\n  - pull: left rear rail back',
    );
    expect((await judged(text)).passes).toBe(true);
  });
});

test.each([
  ['specs/marten-hatch.chassis.yaml', '[ 1200, 420,   95]', '[ 1200, 420,   95.1]'],
  ['specs/teal-estate.chassis.yaml', '[  -1650,   508,    343]', '[  -1650,   508,    343.1]'],
])('a figure of a sheet changed since: %s', async (path, figure, other) => {
  const changed = { ...sheets, [path]: spoilt(sheets[path as keyof typeof sheets], figure, other) };
  const { rules, passes } = await judged(sample, changed);
  expect({ rules, passes }).toEqual({ rules: ['sign-off/changed'], passes: false });
});

test.each(Object.keys(sheets))('a remark in a sheet since: %s', async (path) => {
  const sheet = sheets[path as keyof typeof sheets];
  const remarked = {
    ...sheets,
    [path]: spoilt(sheet, 'framewright: chassis/1', 'framewright: chassis/1   # x'),
  };
  expect(await judged(sample, remarked)).toMatchObject({ rules: [], passes: true });
});

test('the text broken: nothing passes', async () => {
  const { passes, remaining } = await judged(spoilt(sample, 'scope: [rear-rail.L', 'scope: [rear-rail.L, {'));
  expect(passes).toBe(null);
  expect(remaining).toHaveLength(1);
});

test('the sample of mistakes: every procedure rule that it plants, and every gate that it fails', async () => {
  const faulty = read('jobs/w-1212-procedure-mistakes.readings.yaml');
  const analysis = await analysed({ ...sheets, [name]: faulty }, name);
  const rules = new Set(
    analysis.findings.map(({ rule }) => rule).filter((rule) => /^(procedure|sign-off)\//.test(rule)),
  );
  expect([...rules].sort()).toEqual([
    'procedure/heat',
    'procedure/kinked',
    'procedure/never-straighten',
    'procedure/no-hold',
    'procedure/not-relieved',
    'procedure/pull-against',
    'procedure/section-band',
    'procedure/section-in-straightened',
    'procedure/under-tension',
    'sign-off/changed',
    'sign-off/not-joined',
    'sign-off/open-damage',
    'sign-off/outside',
    'sign-off/procedure',
    'sign-off/tension',
    'sign-off/undecided',
    'sign-off/unmeasured',
  ]);
});

describe('a file of another version concludes nothing, and is named', () => {
  const specs = {
    ...sheets,
    'specs/marten-hatch.chassis.yaml': spoilt(
      sheets['specs/marten-hatch.chassis.yaml'],
      'chassis/1',
      'chassis/2',
    ),
  };

  test('the job', async () =>
    expect(await judged(spoilt(sample, 'readings/1', 'readings/2'))).toMatchObject({
      passes: null,
      remaining: [expect.stringMatching(/^the text has errors/)],
    }));

  test('its chassis file', async () =>
    expect(await judged(sample, specs)).toMatchObject({
      passes: null,
      remaining: [expect.stringMatching(/^the chassis file has errors/)],
    }));
});
