import { expect, it } from 'vitest';
import { twoBodies } from '../../testing/two-bodies';
import { shopOf } from '../testing/shop';
import { symbolsFor } from './workspace-symbols';

const found = async (query: string, texts = twoBodies, most?: number) =>
  (await symbolsFor(shopOf(texts).workspaceQuery(), query, most)).map(({ kind, name }) => `${kind} ${name}`);

it('finds jobs by order number and bodies by vehicle', async () => {
  expect(await found('w2')).toEqual(['job W-2']);
  expect(await found('teal')).toEqual(['vehicle Teal']);
  expect(await found('')).toHaveLength(6);
  expect(await found('', twoBodies, 2)).toHaveLength(2);
  expect(await found('nothing like it')).toEqual([]);
});

it('says where the order stands, and falls back on the name of the file', async () => {
  const [symbol] = await symbolsFor(shopOf(twoBodies).workspaceQuery(), 'W-1');
  expect(symbol.range).toEqual({ start: { line: 2, character: 7 }, end: { line: 2, character: 10 } });
  expect(await found('x', { 'x.readings.yaml': 'framewright: readings/1\n  order: nested\n' })).toEqual([
    'job x.readings.yaml',
  ]);
});

it('leaves out what the settings ignore', async () => {
  const texts = { ...twoBodies, '.framewright.yaml': 'framewright: settings/1\nignore: [jobs]\n' };
  expect(await found('w-', texts)).toEqual([]);
});
