import { expect, it } from 'vitest';
import { bentFrom, job, jobFiles, measure } from '../../testing/body';
import { carWith, jobOn, measured } from '../../testing/car';
import { before, shownAt } from '../testing/asked';

async function shown(timeline: string, rail = ', steel: high-strength, straighten: minor'): Promise<string> {
  const files = {
    'car.chassis.yaml': carWith({ 'front-rail': `{ sided: true${rail} }` }),
    'w.readings.yaml': before(jobOn(timeline, 'scope: [front-rail.L]'), 'front-rail.L'),
  };
  return (await shownAt(files, 'w.readings.yaml'))?.markdown ?? '';
}

const read = measured(
  '      rail-tip-lower.L: [3012, 448, 210]\n      rail-tip-upper.L: [3012, 445, 352]\n      rail-root-lower.L: [1760, 441, 188]',
);

it('says what the maker allows', async () => {
  const markdown = await shown(
    read,
    ', steel: ultra-high-strength, straighten: minor, section: [2450, 2700], heat: { to: 200 C, for: 90 s }, reference: manual 31',
  );
  expect(markdown).toContain('**front-rail.L**: runs along length, 4 points');
  expect(markdown).toContain('- steel: ultra-high-strength');
  expect(markdown).toContain('- bent may be straightened, kinked may not');
  expect(markdown).toContain('- a cut is allowed from 2450.0 to 2700.0 mm along length');
  expect(markdown).toContain('- heat: to 200 °C for 90 s');
  expect(markdown).toContain('- procedure: manual 31');
  expect(markdown).toContain("- the maker's procedure decides");
});

it.each([
  [', straighten: never, heat: never', 'must not be straightened: replace only', 'heat: never'],
  [', straighten: freely, heat: { to: 180 C }', 'may be straightened', 'heat: to 180 °C\n'],
  ['', "straightening: the maker's procedure is not recorded", 'heat: nothing recorded'],
  ['', 'steel: not recorded', 'sectioning: no band is recorded'],
])('%s', async (rail, ...lines) => {
  const markdown = await shown(read, rail);
  for (const line of lines) expect(markdown).toContain(`- ${line}`);
});

it('says how it stands in the newest released stage that read it', async () => {
  const markdown = await shown(`${read}
  - note: nothing done
${measured('      rail-tip-lower.L: [3012, 448, 210]', 'again')}
  - pull: out
    part: front-rail.L
  - measure: under load
    readings:
      rail-tip-upper.L: [3012, 450, 352]`);
  expect(markdown).toContain('**In "again"**: 1 within, 0 outside, 0 undecided');
  expect(await shown(read)).toContain('**In "as received"**: 2 within, 1 outside, 0 undecided');
  // 7 mm right at the top, 142 mm above
  const asReceived = (await shown(read)).replaceAll('\\', '');
  expect(asReceived).toMatch(/\| twist&nbsp;&nbsp; \| 2\.8° ±1\.1° top leans right at 3012 mm/);
});

it('says where the pull plan is found, while there is one', async () => {
  const pointer = 'The action *Insert pull plan for front-rail.L* writes which way each chain pulls';
  expect(await shown(read)).toContain(pointer);
  expect(await shown(read, ', straighten: never')).not.toContain('pull plan');
  expect(await shown(read.replace('3012, 445, 352', '3012, 452, 352'))).not.toContain('pull plan');
});

it('stands as a table with the bend and where to hold on top, above what the maker allows', async () => {
  const text = job(measure('as received', bentFrom(2400)), 'scope: [front-rail.L]\n');
  const files = { ...jobFiles(text), 'job.readings.yaml': before(text, 'front-rail.L') };
  const markdown = (await shownAt(files, 'job.readings.yaml'))?.markdown ?? '';
  const rows = [...markdown.matchAll(/^\| ([a-z-]+)&nbsp;/gm)].map(([, key]) => key);
  expect(rows.slice(0, 3)).toEqual(['bend', 'hold', 'twist']);
  expect(markdown.indexOf('| bend')).toBeLessThan(markdown.indexOf('- steel'));
});

it('that was never read has no standing', async () => {
  const markdown = await shown(measured('      latch: [3050, 0, 780]'));
  expect(markdown).toContain('**front-rail.L**');
  expect(markdown).not.toContain('**In ');
});
