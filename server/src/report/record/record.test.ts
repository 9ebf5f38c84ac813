import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sampleTexts } from '../../commands/recorded.fixture';
import { carChassis, jobOn, measured } from '../../testing/car';
import { inspectedJob, recordedJob, recordOf, sampleJobs, sectionOf, shownText } from '../sample.fixture';
import { recordPage } from './record';
import { groupsOf } from './record-points';

const carJob = (job: string) => ({ 'car.chassis.yaml': carChassis, 'w.readings.yaml': job });
const recordOn = (job: string) => recordOf(carJob(job), 'w.readings.yaml');

const signed = 'jobs/w-1174-finished.readings.yaml';

describe.each(sampleJobs)('the record of %s', (path) => {
  it('is the same, byte for byte, whenever it is made', async () => {
    const record = await recordOf(sampleTexts, path);
    expect(await recordOf(sampleTexts, path)).toBe(record);
    // no clock and no place of the machine
    expect(record).not.toMatch(/file:|\b20\d\d-\d\d-\d\dT/);
  });

  it('gives every figure and verdict of inspect --json in the column of its stage', async () => {
    const { stages } = await inspectedJob(sampleTexts, path);
    const section = sectionOf(await recordOf(sampleTexts, path), 'points');
    const found = new Map<string, string>();
    // columns of a table, in the order of its heads; rows by the point they are of
    for (const table of section.split('<table class="points').slice(1)) {
      const heads = [...table.matchAll(/scope="colgroup"[^>]*>([\s\S]*?)<\/th>/g)].map(([, head]) =>
        Number.parseInt(shownText(head), 10),
      );
      for (const [, id, row] of table.matchAll(/data-point="([^"]*)"([\s\S]*?)(?=data-point=|<\/table>)/g))
        for (const [number, text] of rowsByStage(row, heads)) found.set(`${number} ${id}`, text);
    }
    let compared = 0;
    stages.forEach(({ points, unreachable }, i) => {
      for (const { id, verdict, deviation, uncertainty } of points) {
        const text = found.get(`${i + 1} ${id}`);
        expect(text, id).toContain(verdict);
        for (const k of [0, 1, 2] as const)
          expect(text, id).toContain(
            deviation[k] === null ? 'not judged' : figureText(k, deviation[k], uncertainty[k]!),
          );
        compared++;
      }
      for (const id of unreachable) expect(found.get(`${i + 1} ${id}`)).toContain('out of reach');
    });
    expect(compared).toBeGreaterThan(4);
  });

  it('says what stands against a sign-off as inspect --json does', async () => {
    const { signOff } = await inspectedJob(sampleTexts, path);
    const text = shownText(sectionOf(await recordOf(sampleTexts, path), 'standing'));
    for (const line of signOff!.remaining) {
      const [name, ...why] = line.split(': ');
      expect(text).toContain(why.join(': ') || name);
      if (why.length > 0)
        expect(text.includes(name) || text.includes(`${name.slice(0, -2)} (both sides)`), line).toBe(true);
    }
    expect(text.includes('What stands against')).toBe(signOff!.remaining.length > 0);
  });
});

/** By the number of a stage, what a point's rows say of it. */
function rowsByStage(row: string, heads: readonly number[]): Map<number, string> {
  const texts = new Map(heads.map((number) => [number, '']));
  if (!row.includes('rowspan')) return new Map([[heads[0], shownText(row)]]);
  // cells that span three rows hold their column
  const waiting = new Map<number, 'figure' | 'nothing'>();
  row.split('<tr>').forEach((line, i) => {
    if (i === 0) return;
    const cells = [...line.matchAll(/<td([^>]*)>([\s\S]*?)<\/td>/g)].slice(1);
    let at = 0;
    for (const number of heads) {
      if (waiting.get(number) === 'nothing') continue;
      const [, kind, content] = cells[at++];
      texts.set(number, `${texts.get(number)} ${shownText(content)}`);
      if (waiting.has(number)) continue;
      waiting.set(number, kind.includes('colspan="2"') ? 'nothing' : 'figure');
      if (!kind.includes('colspan="2"'))
        texts.set(number, `${texts.get(number)} ${shownText(cells[at++][2])}`);
    }
  });
  return texts;
}

const words = [
  ['forward', 'rearward'],
  ['left', 'right'],
  ['up', 'down'],
] as const;
/** The samples that have records in inches are none: mm to a tenth. */
const figureText = (k: 0 | 1 | 2, mm: number, u: number): string => {
  const size = Math.abs(mm).toFixed(1);
  return `${size === '0.0' ? '0' : `${size} ${words[k][mm < 0 ? 1 : 0]}`} ±${(1.96 * u).toFixed(1)}`;
};

describe('the signed record', () => {
  it('names order, car, reference and its hash, instrument, certainty, rule, and leaves room to sign', async () => {
    const text = shownText(await recordOf(sampleTexts, signed));
    for (const words of [
      'Dimensional record W-1174 · Teal estate, 2022 on',
      'Signed off by rk, 2026-02-20: the sign-off stands.',
      'published, body dimension sheet 7',
      'bench arm 1; one reading is certain to ±0.6 mm at 95 % (standard 0.3 mm) on each axis',
      'The rule of this record is simple',
      'This record covers dimensions only',
      'The maker’s procedure overrides everything here',
      'For dimensions only Name Date Signature Measured jm Checked and released rk 2026-02-20 Received',
      'Deviations are magnified 10 times',
    ])
      expect(text).toContain(words);
    const { inspection } = await recordedJob(sampleTexts, signed);
    const { readings, chassis } = inspection.job.signOff!;
    expect(text).toContain(
      `Signed off against seals ${readings} over what was judged: as it was; ${chassis} over the reference data as used here: as it was`,
    );
    expect(text).toMatch(/Revision of it sha256-[0-9a-f]{64}/);
  });

  it('tells the work in order, and every sort of entry', async () => {
    const log = shownText(sectionOf(await recordOf(sampleTexts, signed), 'log'));
    expect(log).toMatch(
      /measure stage 1: as received .*pull left rear rail back and out; rear-rail\.L hook at .* 19\.0 kN held on .*relieve .*release all .*crack on rear-rail\.L at .*section rear-rail\.L cut at .*replace rear-panel replaced .*join rear-rail\.L, rear-panel welded to rear-rail\.R, tailgate-opening /,
    );
  });
});

describe('a plan that was written into the file', () => {
  it('is told with its pull, without the cautions, which are no work', async () => {
    const job = jobOn(
      `${measured('')}  - pull: left out
    part: front-rail.L
    plan:
      aim: to its mark
      caution: nobody in line with the chain
  - release: all
`,
    );
    const text = shownText(sectionOf(await recordOn(job), 'log'));
    expect(text).toContain('plan, aim: to its mark');
    expect(text).not.toContain('nobody in line with the chain');
  });
});

describe('what was let pass', () => {
  it('is listed with the reason that was given', async () => {
    const ignored = shownText(
      sectionOf(await recordOf(sampleTexts, 'jobs/w-1187-as-received.readings.yaml'), 'accepted'),
    );
    expect(ignored).toMatch(
      /Line Rule What it says Reason given 67 reading\/outside wing-mount-front\.L is .* the bracket comes with the new wing/,
    );
    const record = await recordOn(
      `${jobOn(measured('      latch: [3050, 2.9, 780]'))}sign-off:
  by: rk
  date: 2026-02-20
  accepted:
    - { point: latch, reason: "the lock takes it up, tried" }
`,
    );
    expect(shownText(sectionOf(record, 'accepted'))).toMatch(
      /Points accepted by the sign-off .*latch the lock takes it up, tried .*Undecided points .*latch .*accepted: the lock takes it up, tried/,
    );
  });

  it('names the rules that the settings silence, those that they cannot silence left out', async () => {
    const files = {
      ...carJob(jobOn(measured('      latch: [3050, 0, 780]'))),
      '.framewright.yaml':
        'framewright: settings/1\nrules:\n  reading/hidden-twist: off\n  base/weak: information\n  base/moved: warning\n  sign-off/outside: off\n',
    };
    const text = shownText(sectionOf(await recordOf(files, 'w.readings.yaml'), 'accepted'));
    expect(text).toContain(
      'Rules that the settings switch off or give another severity: base/weak: information (.framewright.yaml), reading/hidden-twist: off (.framewright.yaml).',
    );
  });

  it('names the settings file that has the say: no folder makes its own sign-off easier', async () => {
    const job = jobOn(measured('      latch: [3050, 0, 780]'));
    const files = {
      ...carJob(job),
      'jobs/w.readings.yaml': job.replace(/^chassis: .*$/m, 'chassis: ../car.chassis.yaml'),
      '.framewright.yaml':
        'framewright: settings/1\ndecision-rule: guarded\nrules: { base/weak: off, base/moved: off }\n',
      'jobs/.framewright.yaml':
        'framewright: settings/1\ndecision-rule: simple\nrules: { base/weak: information }\n',
    };
    const record = await recordOf(files, 'jobs/w.readings.yaml');
    expect(shownText(sectionOf(record, 'rule'))).toContain('The rule is chosen in ../.framewright.yaml.');
    expect(shownText(sectionOf(record, 'rule'))).toContain('The rule of this record is guarded');
    expect(shownText(sectionOf(record, 'accepted'))).toContain(
      'base/moved: off (../.framewright.yaml), base/weak: information (.framewright.yaml).',
    );
  });

  it('is said to be nothing where nothing was', async () => {
    const text = shownText(
      sectionOf(await recordOn(jobOn(measured('      latch: [3050, 0, 780]'))), 'accepted'),
    );
    expect(text).toContain('No finding was ignored. No point was accepted by the sign-off.');
  });
});

it('rows that were not read again, and numbers that look copied, stand with the stages', async () => {
  const rows =
    '      rail-tip-upper.L: [3012.31, 452.12, 352.43]\n      rail-root-upper.L: [1760.21, 445.37, 328.11]';
  const job = `${jobOn(
    [
      measured(rows),
      measured(`${rows}\n      rail-tip-upper.R: as-before`, 'after'),
      measured('      rail-tip-upper.L: as-before', 'at last'),
    ].join('\n'),
  )}\nsign-off: { by: rk, date: 2026-03-05, chassis: sha256-00000000, judged-by: 0.2 }\n`;
  const record = await recordOn(job);
  const text = shownText(sectionOf(record, 'stages'));
  expect(text).toContain('1 as before, not read again');
  expect(text).toContain('have exactly the numbers of “as received”');
  expect(text).toContain('signed although numbers look copied from an earlier measure');
  expect(text).toContain('no earlier measure has numbers for rail-tip-upper.R');
  expect(text).toContain('taken as before: rail-tip-upper.L');
  expect(shownText(sectionOf(record, 'points'))).toContain('as before');
});

describe('odd jobs', () => {
  it.each([
    ['no measure', jobOn('  - note: nothing yet'), 'Nothing was read off load|No point was read off load'],
    [
      'no timeline',
      'framewright: readings/1\nchassis: car.chassis.yaml\ntimeline: []\n',
      'Nothing was measured yet',
    ],
    ['a broken text', `${jobOn(measured('      latch: [3050, 0'))}`, 'The files have errors'],
    ['no order', jobOn(measured('')), 'no order number'],
  ])('%s still has a record that says so', async (_, job, expected) => {
    const record = await recordOn(job);
    expect(shownText(record)).toMatch(new RegExp(expected));
    expect(record.match(/<section/g)!.length).toBeGreaterThan(10);
  });

  it('is in inches where the job is', async () => {
    const record = await recordOn(
      `framewright: readings/1
chassis: car.chassis.yaml
units: inch
timeline:
  - measure: as received
    readings:
      floor-front.L: [47.244, 16.535, 3.740]
`,
    );
    expect(shownText(record)).toContain('Lengths in inches');
  });

  it('keeps 10,000 characters and markup as text', async () => {
    const hostile = `<script>alert(1)</script>"'&\u202e`;
    const long = `${hostile}${'x'.repeat(10_000)}`;
    const quotedYaml = JSON.stringify(long);
    const record = await recordOn(
      `${jobOn(measured('      latch: [3050, 0, 780]', quotedYaml), `order: ${quotedYaml}\ntechnician: ${quotedYaml}`)}  - note: ${quotedYaml}\n`,
    );
    expect(record).not.toContain('<script');
    expect(record).not.toContain('\u202e');
    expect(record.match(/x{10000}/g)!.length).toBeGreaterThan(2);
    // tags that are opened are closed, whatever was written between
    for (const tag of [
      'section',
      'table',
      'tbody',
      'tr',
      'td',
      'svg',
      'g',
      'text',
      'bdi',
      'ul',
      'li',
      'figure',
    ])
      expect(record.match(new RegExp(`<${tag}[ >]`, 'g'))?.length ?? 0, tag).toBe(
        record.match(new RegExp(`</${tag}>`, 'g'))?.length ?? 0,
      );
  });
});

describe('the paper', () => {
  it('is left to who prints unless it is said', async () => {
    const job = await recordedJob(sampleTexts, signed);
    expect(recordPage(job)).toContain('@page{margin');
    expect(recordPage(job, 'A4')).toContain('@page{size:A4;margin');
    expect(recordPage(job, 'letter')).toContain('@page{size:letter;margin');
  });
});

describe('stages side by side', () => {
  it('are all there, in order, three at most, tables filled evenly', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 }), (count) => {
        const groups = groupsOf(Array.from({ length: count }, (_, i) => i));
        expect(groups.flat()).toEqual(Array.from({ length: count }, (_, i) => i));
        const sizes = groups.map(({ length }) => length);
        expect(Math.max(0, ...sizes)).toBeLessThanOrEqual(3);
        if (count > 1) expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      }),
    );
  });
});
