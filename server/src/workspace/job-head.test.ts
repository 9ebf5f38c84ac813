import { readdirSync, readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { jobFrom } from '../model/read/job-from-text';
import { entryOf } from '../text/tree';
import { parseText } from '../text/yaml/parse';
import { jobHead } from './job-head';

const samples = new URL('../../../samples/jobs/', import.meta.url);
const jobs = readdirSync(samples).map((name) => readFileSync(new URL(name, samples), 'utf8'));

const pathIn = (text: string): unknown => {
  const value = entryOf(jobHead(text)?.root ?? null, 'chassis')?.value;
  return value?.kind === 'scalar' ? value.value : null;
};

it('tells the chassis file of every sample that has no slip above its timeline', () => {
  const wholes = jobs.map((text) => ({ text, path: jobFrom('file:///a', parseText(text)).chassisPath }));
  const told = wholes.filter(({ text }) => jobHead(text) !== null);
  expect(told.length).toBeGreaterThanOrEqual(jobs.length - 1);
  for (const { text, path } of told) expect(pathIn(text)).toBe(path);
});

it.each([
  ['a key below the timeline', 'framewright: readings/1\ntimeline: []\nchassis: a\n'],
  ['two keys', 'chassis: a\ntimeline: []\n"chassis": b\n'],
  ['no timeline', 'chassis: a\n'],
  ['an open quote', 'chassis: a\norder: "x\ntimeline: []\n'],
])('leaves %s to whoever reads the whole', (_, text) => expect(jobHead(text)).toBeNull());

it('never tells another file than the whole text does', () => {
  const piece = fc.constantFrom(
    '',
    '\n',
    ':',
    '"',
    "'",
    '- ',
    '{',
    '[',
    '#',
    'chassis: b\n',
    '\nchassis: b\n',
    '? chassis\n: b\n',
    'timeline: []\n',
    '\r',
    '&a ',
    '*a',
    '|',
    '\n---\n',
  );
  const edits = fc.array(fc.tuple(fc.nat(400), fc.nat(20), piece), { minLength: 1, maxLength: 3 });
  fc.assert(
    fc.property(fc.constantFrom(...jobs), edits, (job, list) => {
      const text = list.reduce((now, [at, gone, put]) => now.slice(0, at) + put + now.slice(at + gone), job);
      const told = pathIn(text);
      if (told !== null) expect(told).toBe(jobFrom('file:///a', parseText(text)).chassisPath);
    }),
    { numRuns: 500 },
  );
});
