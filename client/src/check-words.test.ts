import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { checkArguments, checkName } from './check-words';

test('what is asked for', () => {
  expect(checkArguments({})).toEqual(['check', '--', '.']);
  expect(checkArguments({ open: true, paths: ['jobs', '--x'] })).toEqual([
    'check',
    '--open',
    '--',
    'jobs',
    '--x',
  ]);
});

test('what it is called', () => {
  expect(checkName({})).toBe('check');
  expect(checkName({ paths: ['jobs'], open: true })).toBe('check jobs, open jobs count too');
});

const { contributes } = JSON.parse(readFileSync(path.join(import.meta.dirname, '../package.json'), 'utf8'));
const pattern = new RegExp(contributes.problemPatterns[0].regexp);

test('the pattern takes a finding apart', () => {
  const line =
    'jobs/w-1: left [2].readings.yaml:12:7: error: rail-tip.L is 3.0 mm: too far [up]. Move it. [reading/outside]';
  expect(pattern.exec(line)?.slice(1)).toEqual([
    'jobs/w-1: left [2].readings.yaml',
    '12',
    '7',
    'error',
    'rail-tip.L is 3.0 mm: too far [up]. Move it.',
    'reading/outside',
  ]);
});

test.each([
  '  12 |       rail-tip.L: [1, 2, 3]',
  '     |       ^^^^^^^^^^',
  'jobs/w-1.readings.yaml: order W-1, open',
  '3 files: 3 errors, 2 warnings, 0 for information',
  'jobs/w-1.readings.yaml:12:7: error (ignored): rail-tip.L is out. [reading/outside]',
])('it leaves alone: %s', (line) => {
  expect(pattern.test(line)).toBe(false);
});
