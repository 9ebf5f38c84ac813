import { expect, test } from 'vitest';
import { analysed } from '../testing/analysed';
import { chassisWith } from '../testing/body';
import { found, silent } from '../testing/kit';

const name = 'chassis/looser-part';
const rail =
  'steel: ultra-high-strength, straighten: minor, section: [1400, 2000], heat: never, reference: manual 31';
const files = (parts: string, points = '') => ({
  'parent.chassis.yaml': chassisWith(),
  'own.chassis.yaml': `framewright: chassis/1\nextends: parent.chassis.yaml\nvehicle: Marten\nparts:\n${parts}${points}`,
});
const railAs = (from: string, to: string) => `  rail: { sided: true, ${rail.replace(from, to)} }\n`;

test('what a part allows beyond its parent, once for both sides', async () => {
  await found(
    name,
    files(`  rail: { sided: true, steel: mild, straighten: freely, heat: { to: 200 C } }
# ^^^^ warning: chassis/looser-part rail allows more than in parent.chassis.yaml: \`section\` is left out, \`straighten\` is freely, there minor and \`heat\` is 200 °C, there never
`),
  );
});

const messages = async (parts: string) =>
  (await analysed(files(parts), 'own.chassis.yaml')).findings
    .filter(({ rule }) => rule === name)
    .map(({ message }) => message);

test.each([
  ['a wider band', railAs('[1400, 2000]', '[1400, 2100]'), /1400 to 2100 mm, there 1400 to 2000 mm/],
  ['no limit of heat', railAs('heat: never, ', ''), /`heat` is left out/],
  ['only bolted', railAs('heat:', 'attached: bolted, heat:'), /`attached` is bolted, there welded/],
  [
    'hotter, or for longer',
    '  sill: { sided: true, steel: high-strength, straighten: minor, section: [-300, 300], heat: { to: 210 C } }\n',
    /210 °C, there 200 °C/,
  ],
])('%s', async (_, parts, expected) =>
  expect(await messages(parts)).toEqual([expect.stringMatching(expected)]),
);

test('silent: the same, less, of another piece of metal, or without a parent', async () => {
  await silent(name, files(railAs('', '')));
  await silent(name, files(railAs('minor', 'never').replace('[1400, 2000]', '[1500, 1900]')));
  const moved = 'points:\n  rail-6: { both: [2600, 400, 100], part: rail }\n';
  await silent(name, files(railAs('minor', 'freely'), moved));
  await silent(name, { 'own.chassis.yaml': chassisWith() });
  await silent(name, files('  cover: { steel: mild, straighten: freely }\n'));
});
