import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { recorded, sampleTexts, shopOf, target } from './recorded.fixture';
import { reference } from './reference';

const page = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');

it('the used front of the samples gives what the page prints of it', async () => {
  const { code, printed } = await recorded((output) =>
    reference(shopOf(sampleTexts), [target('jobs/w-1218-used-front.readings.yaml')], {
      ...output,
      into: target('specs/teal-estate.chassis.yaml'),
      names: null,
      replace: false,
      dryRun: true,
      write: () => 'written',
    }),
  );
  expect(code).toBe(0);
  const [, block] = /w-1218-used-front[\s\S]*?```\n([\s\S]*?)```/.exec(page) ?? [];
  const told = block?.split('\n').filter((line) => line !== '') ?? [];
  expect(told.length).toBeGreaterThan(5);
  expect(printed.split('\n')).toEqual(expect.arrayContaining(told));
  // its truth is in the simulation of the samples; the knocked side is given by nobody
  const [, length, width, height] =
    /apron-ledge: +\{ left: \[(.*?), (.*?), (.*?)\], part/.exec(printed) ?? [];
  for (const [found, truth] of [
    [length, 2410],
    [width, 634],
    [height, 776],
  ] as const)
    expect(Math.abs(Number(found) - truth)).toBeLessThan(2.5);
  expect(printed).not.toMatch(/apron-ledge: .*right:/);
});
