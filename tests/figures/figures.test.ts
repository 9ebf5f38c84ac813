// No figure that is none, and none that is known worse than it says: by every way out, over the samples and what may become of them.
import { describe, expect, test } from 'vitest';
import { memoryFiles } from '../../server/src/workspace/testing/memory-files';
import { Workspace } from '../../server/src/workspace/workspace';
import { seededRandom } from '../published/seeded-random';
import { faultsIn } from './faults';
import { mutated, type Texts } from './mutations';
import { type Dear, outputsOf } from './outputs';
import { all, folder, jobs, samples, specs } from './samples';

/** What is wrong with what is said of a file, by the way it is said. */
async function faultsOf(texts: Texts, name: string, dear: readonly Dear[]): Promise<string[]> {
  const files = Object.fromEntries(Object.entries(texts).map(([each, text]) => [folder + each, text]));
  const analysis = await new Workspace(memoryFiles(files, folder)).analysis(folder + name);
  if (!('findings' in analysis)) throw new Error(`${name}: ${analysis.message}`);
  const isInch = /^units: *inch/m.test(analysis.text);
  const found: string[] = [];
  for (const [way, said] of outputsOf(analysis, dear))
    found.push(...faultsIn(said, isInch).map((fault) => `${way}: ${fault}`));
  return [...new Set(found)];
}

test.each(all)('%s', async (name) => {
  expect(await faultsOf(samples, name, ['record', 'pictures'])).toEqual([]);
});

const copies = 500;
const atOnce = 25;
/** What takes long is made of some of the copies. */
const turns: readonly (readonly Dear[])[] = [['record'], ['pictures'], []];

describe(`${copies} copies with something done to them`, () => {
  test.each(Array.from({ length: copies / atOnce }, (_, i) => i * atOnce))(
    'from %i on',
    async (first) => {
      const faults: string[] = [];
      for (let i = first; i < first + atOnce; i++) {
        const name = all[i % all.length];
        const { text, by } = mutated(samples[name], seededRandom(7919 * i + 1));
        // a body is seen through a job as well
        const looked = specs.includes(name) ? [name, jobs[i % jobs.length]] : [name];
        for (const each of looked)
          for (const fault of await faultsOf({ ...samples, [name]: text }, each, turns[i % turns.length]))
            faults.push(`copy ${i} of ${name} (${by}), ${each}: ${fault}`);
      }
      expect(faults).toEqual([]);
    },
    180_000,
  );
});

test('what it looks for is found', () => {
  const said = ['NaN mm', 'scale Infinity', 'twist 2.0° ±46.0°', '±1000.1 mm', '3.0 ±1200.0 left'];
  for (const each of said) expect(faultsIn(each, false), each).toHaveLength(1);
  expect(
    faultsIn('twist, °: 82.9 ±2.2 top leans right at 10, 26.5 ±46.6 at 20; width, mm: 1 ±46', false),
  ).toHaveLength(1);
  for (const each of ['2.0° ±44.9°', '±999.9 mm', '±300.0 in height', 'Tunnel to finish'])
    expect(faultsIn(each, false), each).toEqual([]);
  expect([faultsIn('±40.0 in', false).length, faultsIn('±40.0', true).length]).toEqual([1, 1]);
  expect(faultsIn({ a: [1, Number.NaN], shiftUncertainty: [2, 600] }, false)).toEqual([
    '.a.1: NaN',
    '.shiftUncertainty.1: 600',
  ]);
  expect(
    faultsIn({ yawUncertainty: 20, twistUncertainty: 24, angle: { uncertaintyRad: 0.41 } }, false),
  ).toEqual(['.twistUncertainty: 24', '.angle.uncertaintyRad: 0.41']);
});
