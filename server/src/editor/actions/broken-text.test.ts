import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn, measured } from '../../testing/car';
import { parseText } from '../../text/yaml/parse';
import { after, before, moment, offeredAt, sampleFiles } from '../testing/asked';
import { damaged, damageOf, share } from '../testing/damage';
import { actionsAt } from './actions-at';

const name = 'w.readings.yaml';
const shop = (text: string) => ({ 'car.chassis.yaml': carChassis, [name]: text });
const tip = '      rail-tip-lower.L: [3012, 468, 210]';
const offered = async (text: string, piece: string): Promise<string[]> => [
  ...(await offeredAt(shop(before(text, piece)), name)).keys(),
];

describe('while the text is broken', () => {
  const sound = jobOn(`${measured(tip)}\n  - note: waiting for parts`);

  it('the sound text is offered much', async () => {
    expect(await offered(sound, 'as received')).toContain('Insert next measure');
    expect(await offered(sound, 'rail-tip-lower.L')).toContain('Mark rail-tip-lower.L unreachable');
  });

  it.each([
    ['a bracket that is not closed', sound.replace('468, 210]', '468, 210')],
    ['a quote that is not closed', sound.replace('waiting for parts', '"waiting')],
    ['a list whose end is out of line', sound.replace('  - note:', ' - note:')],
    ['rows that stand there twice', sound.replace('  - note', `    readings:\n${tip}\n  - note`)],
    ['a row that stands there twice', sound.replace(tip, `${tip}\n${tip}`)],
    ['a key twice', sound.replace('timeline:', 'technician: a\ntechnician: b\ntimeline:')],
  ])('nothing is inserted, swapped or silenced: %s', async (_, text) => {
    for (const piece of ['framewright', 'timeline', 'as received', 'rail-tip-lower.L'])
      expect((await offered(text, piece)).filter((title) => !/^(Change|Mark)/.test(title))).toEqual([]);
  });

  it('what mends it is offered', async () => {
    const open = sound.replace('468, 210]', '468, 210');
    expect(parseText(open).problems).not.toEqual([]);
    const action = (await offeredAt(shop(before(open, 'rail-tip-lower.L')), name)).get(
      'Mark rail-tip-lower.L unreachable',
    );
    expect(parseText(after(open, action!)).problems).toEqual([]);
    // a slip in a name elsewhere is mended too, without a guess at a figure
    const slip = open.replace('technician', 'technicain').replace('instrument:', 'instrumnt:');
    expect(await offered(slip, 'instrumnt')).toContain('Fix all that is safe');
  });
});

it('however a job is broken, what is offered breaks no more of it and moves no entry into another', async () => {
  const path = 'jobs/w-1192-twisted-rail.readings.yaml';
  const files = sampleFiles(path);
  await fc.assert(
    fc.asyncProperty(damageOf(2), share, async (damage, at) => {
      const text = damaged(files[path], damage);
      const analysis = await analysed({ ...files, [path]: text }, path);
      const offset = Math.floor(at * text.length);
      const { problems } = analysis.tree;
      for (const action of actionsAt(analysis, { start: offset, end: offset }, moment)) {
        const now = parseText(after(text, action, 'why'));
        expect(now.problems.length, action.title).toBeLessThanOrEqual(problems.length);
        if (problems.length > 0) expect(action.title).not.toMatch(/^(Insert|Silence|Sign|Take|Convert|Swap)/);
      }
    }),
    { numRuns: 60 },
  );
}, 60_000);
