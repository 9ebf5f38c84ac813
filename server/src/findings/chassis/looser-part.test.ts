import { expect, test } from 'vitest';
import { chassisWith } from '../../testing/body';
import { analysed } from '../testing/analysed';
import { found, silent } from '../testing/kit';

const name = 'chassis/looser-part';
const rail =
  'steel: high-strength, straighten: minor, section: [2450, 2700], heat: never, reference: manual 31';
const files = (parts: string, points = '') => ({
  'parent.chassis.yaml': chassisWith(),
  'own.chassis.yaml': `framewright: chassis/1\nextends: parent.chassis.yaml\nvehicle: Marten\nparts:\n${parts}${points}`,
});
const railAs = (from: string, to: string) => `  front-rail: { sided: true, ${rail.replace(from, to)} }\n`;

test('what a part allows beyond its parent, once for both sides', async () => {
  await found(
    name,
    files(`  front-rail: { sided: true, steel: mild, straighten: freely, heat: { to: 200 C } }
# ^^^^^^^^^^ warning: chassis/looser-part front-rail allows more than in parent.chassis.yaml: \`section\` is left out, \`straighten\` is freely, there minor and \`heat\` is 200 °C, there never
`),
  );
});

const messages = async (parts: string) =>
  (await analysed(files(parts), 'own.chassis.yaml')).findings
    .filter(({ rule }) => rule === name)
    .map(({ message }) => message);

test.each([
  ['a wider band', railAs('[2450, 2700]', '[2450, 2800]'), /2450 to 2800 mm, there 2450 to 2700 mm/],
  ['no limit of heat', railAs('heat: never, ', ''), /`heat` is left out/],
  ['only bolted', railAs('heat:', 'attached: bolted, heat:'), /`attached` is bolted, there welded/],
  [
    'hotter, or for longer',
    '  sill: { sided: true, steel: high-strength, straighten: minor, section: [-150, 760], heat: { to: 210 C } }\n',
    /210 °C, there 200 °C/,
  ],
])('%s', async (_, parts, expected) =>
  expect(await messages(parts)).toEqual([expect.stringMatching(expected)]),
);

test('silent: the same, less, of another piece of metal, or without a parent', async () => {
  await silent(name, files(railAs('', '')));
  await silent(name, files(railAs('minor', 'never').replace('[2450, 2700]', '[2500, 2650]')));
  const moved = 'points:\n  rail-tip-lower: { both: [3112, 448, 210], part: front-rail }\n';
  await silent(name, files(railAs('minor', 'freely'), moved));
  await silent(name, { 'own.chassis.yaml': chassisWith() });
  await silent(name, files('  cover: { steel: mild, straighten: freely }\n'));
});
