import { expect, it } from 'vitest';
import { vehicleHover } from '../editor/hover/hover-vehicle';
import { Workspace } from '../workspace/workspace';
import { chassisPage } from './chassis';
import { recorded, sampleTexts, shopOf, target } from './recorded.fixture';

const page = (texts: Record<string, string>, path: string) =>
  recorded((output) => chassisPage(shopOf(texts), target(path), output));

it.each([
  ['specs/marten-hatch.chassis.yaml', ['variants that extend it: ']],
  ['specs/teal-estate.chassis.yaml', ['signed jobs that rest on it: 1: jobs/w-1174-finished.readings.yaml']],
])(
  'of the sample %s it says what it holds and who rests on it, and hover of `vehicle` the same',
  async (path, some) => {
    const { code, printed, complained } = await page(sampleTexts, path);
    expect([code, complained]).toEqual([0, '']);
    for (const words of [
      ...some,
      'points without use (on no part, no control point, in no distance): ',
      'parts without points: ',
      'limits wider than those of its source: ',
      'sources, the oldest first:',
      'open jobs that rest on it: ',
    ])
      expect(printed).toContain(words);
    const files = shopOf(sampleTexts);
    const analysis = await new Workspace(files).analysis(target(path).uri);
    if (analysis.kind !== 'chassis') throw new Error('no chassis file');
    const hover = await vehicleHover(analysis, analysis.text.indexOf('vehicle') + 2, files);
    // a hover names files from its own, and has no room for all
    const plain = hover?.markdown.replaceAll('\\', '').replaceAll('../', '') ?? '';
    for (const line of printed.replaceAll('specs/', '').split('\n').slice(1))
      expect(plain).toContain(`- ${line.trim().split(', ').slice(0, 8).join(', ')}`);
    expect(await vehicleHover(analysis, analysis.text.indexOf('points:'), files)).toBeNull();
  },
);

it('names what nothing uses, wider limits, and sources from the oldest on', async () => {
  const head = 'framewright: chassis/1\n';
  const job = 'framewright: readings/1\nchassis: ../car.chassis.yaml\ntimeline: []\n';
  const texts = {
    'base.chassis.yaml': `${head}vehicle: Marten\nsource: { kind: published, reference: sheet 7, date: 2026-01-12 }
parts:
  rail: { sided: true, steel: mild }
  floor: { steel: mild }
points:
  tip: { both: [3000, 440, 350], part: rail, tolerance: 2 }
  hook: { centre: [2500, 0, 350], source: { kind: donor, date: 2024-05-01 } }
  lock: { centre: [2400, 0, 350], source: { kind: measured } }
  hole: { both: [1000, 400, 90], base: true }
spans:
  - { from: lock, to: hole.L, distance: 1478.7 }
`,
    'car.chassis.yaml': `${head}vehicle: Marten, as here\nextends: ./base.chassis.yaml\nsource: { kind: published, reference: sheet 8, date: 2026-02-01 }
points:
  tip: { both: [3000, 440, 350], part: rail, tolerance: 5 }
`,
    'jobs/a.readings.yaml': job,
    'jobs/b.readings.yaml': `${job}sign-off: { by: rk, date: 2026-03-05 }\n`,
  };
  const { printed } = await page(texts, 'car.chassis.yaml');
  expect(printed).toContain('points without use (on no part, no control point, in no distance): 1: hook');
  expect(printed).toContain('parts without points: 1: floor');
  expect(printed).toMatch(
    /limits wider than those of its source:\n {4}the tolerance of tip is wider than in base/,
  );
  expect(printed).toMatch(
    /oldest first:\n {4}no date: measured: 1 point\n {4}2024-05-01: donor: 1 point\n {4}2026-01-12: published, sheet 7: 2 points\n {4}2026-02-01: published, sheet 8: 2 points\n/,
  );
  expect(printed).toContain('open jobs that rest on it: 1: jobs/a.readings.yaml');
  expect(printed).toContain('signed jobs that rest on it: 1: jobs/b.readings.yaml');
  expect((await page(texts, 'base.chassis.yaml')).printed).toContain(
    'variants that extend it: 1: car.chassis.yaml',
  );
});

it('names every job, as it is called from the current folder', async () => {
  const text = 'framewright: readings/1\nchassis: ../specs/a.chassis.yaml\ntimeline: []\n';
  const jobs = Array.from({ length: 12 }, (_, k) => `jobs/w-${k + 10}.readings.yaml`);
  const shop = {
    'specs/a.chassis.yaml': 'framewright: chassis/1\nvehicle: Marten\npoints: {}\n',
    ...Object.fromEntries(jobs.map((path) => [path, text])),
  };
  const { printed } = await page(shop, 'specs/a.chassis.yaml');
  expect(printed).toContain(
    `open jobs that rest on it: 12: ${jobs.slice(0, -1).join(', ')} and ${jobs.at(-1)}`,
  );
});

it('says so of what is no chassis file', async () => {
  expect(await page(sampleTexts, 'jobs/none.readings.yaml')).toMatchObject({ code: 2 });
  expect((await page(sampleTexts, '.framewright.yaml')).complained).toContain('it is no chassis file');
});
