import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { twoBodies } from '../../testing/two-bodies';
import { sampleFiles } from '../testing/asked';
import { shopOf } from '../testing/shop';
import { type OutlineItem, outlineOf } from './outline';

const shown = ({ kind, name, detail, children }: OutlineItem): string =>
  `${kind} ${name}${detail ? ` (${detail})` : ''}${children.length > 0 ? `: ${children.map(shown).join('; ')}` : ''}`;

describe('the outline', () => {
  it('of a chassis file: parts, points with their part, spans', async () => {
    const analysis = await shopOf(twoBodies).analysis('specs/hatch.chassis.yaml');
    expect(outlineOf(analysis).map(shown)).toEqual([
      'group parts (2): part rail; part floor',
      'group points (3): point tip (rail); point floor-front (floor); point latch',
      'group spans (2): span tip.L – latch (726); span tip – floor-front (1816)',
    ]);
  });

  it('of a job: stages with readings and verdicts, pulls, other work, sign-off', async () => {
    const analysis = await shopOf(twoBodies).analysis('jobs/w-1.readings.yaml');
    expect(outlineOf(analysis).map(shown)).toEqual([
      'stage as received (2 read): point tip.L (unjudged); point tip.R (unjudged)',
      'pull tip to the left (rail.L)',
      'work release (all)',
      'sign-off sign-off (rk)',
    ]);
  });

  it('of a sample counts what is outside', async () => {
    const name = 'jobs/w-1187-as-received.readings.yaml';
    const items = outlineOf(await analysed(sampleFiles(name), name));
    const stage = items.find(({ kind }) => kind === 'stage')!;
    const outside = stage.children.filter(({ detail }) => detail === 'outside').length;
    expect(outside).toBeGreaterThan(0);
    expect(stage.detail).toContain(`${outside} outside`);
  });

  it('of settings: the rules', async () => {
    const analysis = await analysed(
      { '.framewright.yaml': 'framewright: settings/1\nrules:\n  reading/coverage: off\n' },
      '.framewright.yaml',
    );
    expect(outlineOf(analysis).map(shown)).toEqual(['group rules (1): group reading/coverage (off)']);
  });

  it('of a long job keeps every stage, and the readings of the newest', async () => {
    const row = (i: number) => `      p-${i}.L: [1, 2, 3]\n`;
    const stage = (i: number) =>
      `  - measure: stage ${i}\n    readings:\n${Array.from({ length: 50 }, (_, k) => row(k)).join('')}`;
    const text = `framewright: readings/1\nchassis: ./m.chassis.yaml\ntimeline:\n${Array.from({ length: 40 }, (_, i) => stage(i)).join('')}`;
    const items = outlineOf(await analysed({ 'w.readings.yaml': text }, 'w.readings.yaml'), 200);
    expect(items).toHaveLength(40);
    expect(items.reduce((sum, each) => sum + 1 + each.children.length, 0)).toBe(200);
    expect(items.at(-1)!.children).toHaveLength(50);
    expect([items[0].children.length, items[0].detail]).toEqual([0, '0 of 50 read']);
  });
});
