import type { JobEntry, JobState } from '@framewright/schemas/wire';
import { expect, test } from 'vitest';
import { statusOf } from '../status-words';
import { lineOf, nothingOutsideWords } from './entry-words';

const range = { start: { line: 30, character: 6 }, end: { line: 30, character: 22 } };
const job: JobEntry = {
  kind: 'job',
  uri: 'file:///shop/jobs/w-2041.readings.yaml',
  order: 'W-2041',
  state: 'open',
  stage: 'after first pull',
  counts: { within: 20, outside: 3, undecided: 1, unjudged: 0 },
  worst: { id: 'rail-tip-upper.L', words: '15.3 mm too far right (inboard)', range },
  remaining: 4,
  chassis: null,
  errors: 0,
  warnings: 0,
};
const path = 'jobs/w-2041.readings.yaml';

test('a job in a line', () => {
  const { label, description, tooltip } = lineOf(job, path);
  expect(label).toBe('W-2041');
  expect(description).toBe('open · 3 outside, 1 undecided · after first pull');
  expect(tooltip.split('\n')).toEqual([
    path,
    'open',
    'newest measure: after first pull',
    '3 outside, 1 undecided, 20 within',
    'worst: rail-tip-upper.L 15.3 mm too far right (inboard)',
    '4 things stand against the sign-off',
  ]);
});

test('what is drawn is spoken as well: state, measure, counts and worst point', () => {
  expect(lineOf(job, path).spoken).toBe(
    'W-2041, open, newest measure after first pull, 3 outside, 1 undecided, 20 within, ' +
      'worst rail-tip-upper.L 15.3 mm too far right (inboard)',
  );
});

test('no two states look alike, whatever the colours', () => {
  const states: JobState[] = [
    ...(['open', 'ready', 'signed', 'sign-off-fails'] as const),
    ...(['text-errors', 'no-chassis', 'unmeasured'] as const),
  ];
  const lines = states.map((state) => lineOf({ ...job, state }, path));
  expect(new Set(lines.map(({ icon }) => icon)).size).toBe(states.length);
  expect(new Set(lines.map(({ description }) => description)).size).toBe(states.length);
});

test('a chassis file, one that cannot be read and one that was not reached', () => {
  const counts = { points: 24, errors: 0, warnings: 0 };
  const chassis = { kind: 'chassis', uri: 'file:///a.chassis.yaml', vehicle: 'Marten', ...counts } as const;
  expect(lineOf({ ...chassis, controlPoints: 8 }, 'a.chassis.yaml')).toMatchObject({
    label: 'Marten',
    description: '24 points',
    spoken: 'Marten, chassis file, 24 points, 8 of them control points',
  });
  const uri = 'file:///b.readings.yaml';
  expect(lineOf({ kind: 'unreadable', uri, message: 'no such file' }, 'b').spoken).toBe(
    'b, cannot be read: no such file',
  );
  expect(lineOf({ kind: 'unchecked', uri, of: 'job' }, 'b').description).toBe('not looked at yet');
});

test('nothing to go to is never told as all being well where nothing was judged', () => {
  const counts = { within: 20, outside: 0, undecided: 0, unjudged: 2 };
  const none = { within: 0, outside: 0, undecided: 0, unjudged: 5 };
  const words = (entry: Partial<JobEntry>): string =>
    nothingOutsideWords({ ...job, worst: null, counts, ...entry });
  expect(words({})).toBe('No point is outside its tolerance as measured last.');
  expect(words({ counts: { ...counts, undecided: 2 } })).toMatch(/certainly.* 2 too near to tell/);
  expect(words({ state: 'text-errors' })).toMatch(/errors/);
  expect(words({ state: 'no-chassis' })).toMatch(/chassis file/);
  expect(words({ counts: none })).toMatch(/judged yet/);
  expect(nothingOutsideWords(undefined)).toMatch(/not a job/);
});

test('the status tells state and worst point, and where the click goes', () => {
  expect(statusOf(job)).toEqual({
    icon: 'tools',
    text: 'open · rail-tip-upper.L 15.3 mm too far right (inboard)',
    state: 'open',
    worst: 'rail-tip-upper.L 15.3 mm too far right (inboard)',
    detail: 'after first pull · 3 outside, 1 undecided, 20 within',
    spoken:
      'Job W-2041, open, 3 outside, 1 undecided, 20 within, worst rail-tip-upper.L 15.3 mm too far right (inboard)',
    severity: 'information',
    goesTo: 'worst point',
  });
  expect(statusOf({ ...job, worst: null })).toMatchObject({ text: 'open', goesTo: 'jobs' });
  expect(statusOf({ kind: 'unchecked', uri: job.uri, of: 'job' })).toBeNull();
  expect(statusOf(undefined)).toBeNull();
});

test('while the text has errors, no figure of the job is told', () => {
  const broken: JobEntry = { ...job, state: 'text-errors' };
  expect(statusOf(broken)).toMatchObject({
    text: 'errors in the text',
    detail: 'after first pull',
    severity: 'error',
    goesTo: 'problems',
  });
  const { description, tooltip, spoken } = lineOf(broken, path);
  expect(description).toBe('errors in the text · after first pull');
  for (const words of [tooltip, spoken]) expect(words).not.toMatch(/outside|15\.3/);
});
