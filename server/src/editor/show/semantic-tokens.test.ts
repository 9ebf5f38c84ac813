import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn, measured } from '../../testing/car';
import type { Analysis } from '../../workspace/workspace';
import { sampleFiles } from '../testing/asked';
import { semanticTokens } from './semantic-tokens';

const of = (text: string, name = 'w.readings.yaml'): Promise<Analysis> =>
  analysed({ 'car.chassis.yaml': carChassis, [name]: text }, name);

/** `text type.modifier.modifier` */
const told = (analysis: Analysis, range?: { start: number; end: number }): string[] =>
  semanticTokens(analysis, range).map(({ start, end, type, modifiers }) =>
    [`${analysis.text.slice(start, end)} ${type}`, ...modifiers].join('.'),
  );

const pair = '      rail-tip-lower.R: [3012, -448, 210]\n      rail-tip-upper.R: [3012, -452, 352]';
const rows = `      rail-tip-lower.L: [3012, 468, 210]\n      rail-tip-upper.L: [3012, 455, 352]\n${pair}\n      latch: unreachable`;

describe('in a job', () => {
  it('points are told by their verdict where they were read, and those of the base', async () => {
    const path = 'jobs/w-1192-twisted-rail.readings.yaml';
    const analysis = await analysed(sampleFiles(path), path);
    const tokens = told(analysis);
    expect(tokens).toContain('floor-front.L point.within.base');
    expect(tokens).toContain('rail-tip-upper.L point.outside');
    expect(tokens).toContain('rail-tip-upper.L point.outside.peak');
    // named, not read
    expect(tokens).toContain('sill-hole-front point.base');
    expect(tokens).toContain('front-rail.L part');
    expect(tokens).toContain('rail-tip-lower.L point');
  });

  it('a verdict that may be the wrong one is none', async () => {
    const few = jobOn(
      '  - measure: a\n    readings:\n      floor-front.L: [1200, 420, 95]\n      rail-tip-lower.L: [3012, 468, 210]',
    );
    const points = told(await of(few)).filter((each) => each.includes(' point'));
    expect(points).toHaveLength(2);
    for (const each of points) expect(each).not.toMatch(/within|outside|undecided/);
  });

  it('numbers and units stand apart', async () => {
    const text = jobOn(
      `${measured(rows)}\n  - pull: 3 of 4\n    force: 18 kN\n  - heat: apron.R\n    to: 200 C\n    for: "90 s"\n    note: 12 s`,
    ).replace('timeline', 'units: mm\ntimeline');
    const tokens = told(await of(text)).filter((each) => !/ (point|part)/.test(each));
    expect(tokens.slice(0, 3)).toEqual(['0.2 number', 'mm unit', '1200 number']);
    expect(tokens.slice(-4)).toEqual(['18 number', 'kN unit', '200 number', 'C unit']);
  });

  it('are in text order, none over another, each on one line, and the same wherever they are asked for', async () => {
    const path = 'jobs/w-1174-finished.readings.yaml';
    const analysis = await analysed(sampleFiles(path), path);
    const all = semanticTokens(analysis);
    expect(all.length).toBeGreaterThan(200);
    all.slice(1).forEach(({ start }, i) => {
      expect(start).toBeGreaterThanOrEqual(all[i].end);
    });
    for (const { start, end } of all) expect(analysis.text.slice(start, end)).not.toMatch(/^$|[\r\n]/);
    for (const start of [0, 700, 2500]) {
      const range = { start, end: start + 900 };
      const within = all.filter((token) => token.start <= range.end && token.end >= range.start);
      expect(semanticTokens(analysis, range)).toEqual(within);
    }
  });

  it('of an edit above move with the text', async () => {
    const text = jobOn(measured(rows));
    const before = told(await of(text));
    expect(before).toEqual(told(await of(`# a remark\n\n${text}`)));
    expect(before).toContain('468 number');
  });

  it('what an alias or a quoted text stands for is told once and on one line', async () => {
    const text = jobOn(
      '  - measure: a\n    readings:\n      "floor-front.L": &at [1200, 420, 95]\n      floor-front.R: *at\n      "a\n        b": [1, 2, 3]',
    );
    const tokens = told(await of(text));
    expect(tokens.filter((each) => each.startsWith('1200'))).toHaveLength(1);
    expect(tokens.filter((each) => each.includes('\n'))).toEqual([]);
    expect(tokens.some((each) => each.startsWith('"floor-front.L" point'))).toBe(true);
  });
});

it('in a chassis file points and parts are named, control points marked', async () => {
  const tokens = told(await of(carChassis, 'car.chassis.yaml'));
  expect(tokens).toContain('floor-front point.base');
  expect(tokens).toContain('rail-tip-lower point');
  expect(tokens).toContain('front-rail part');
  expect(tokens).toContain('rail-tip-lower.L point');
  expect(tokens.filter((each) => each === '3012 number')).toHaveLength(2);
});

it('in the settings there are none of points', async () => {
  expect(told(await of('framewright: settings/1\nrules:\n  base/moved: off\n', '.framewright.yaml'))).toEqual(
    [],
  );
});
