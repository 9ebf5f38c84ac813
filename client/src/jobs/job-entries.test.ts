import type { Entry, JobEntry } from '@framewright/schemas/wire';
import { expect, test } from 'vitest';
import { EntryList, fileName, nameOf } from './job-entries';

const job = (order: string, state: JobEntry['state'] = 'open'): JobEntry => ({
  kind: 'job',
  uri: `file:///shop/jobs/${order.toLowerCase()}.readings.yaml`,
  order,
  state,
  stage: 'as received',
  counts: { within: 3, outside: 0, undecided: 0, unjudged: 0 },
  worst: null,
  remaining: 0,
  chassis: null,
  errors: 0,
  warnings: 0,
});
const chassis = (name: string): Entry => ({
  kind: 'chassis',
  uri: `file:///shop/specs/${name}.chassis.yaml`,
  vehicle: name,
  points: 12,
  controlPoints: 6,
  errors: 0,
  warnings: 0,
});
const listed = (...entries: Entry[]): EntryList => {
  const list = new EntryList();
  list.take({ entries, left: 0, unread: [], checking: false });
  return list;
};
const change = (entries: Entry[], gone: string[] = []) => ({
  entries,
  gone,
  left: 0,
  unread: [],
  checking: false,
});

test('jobs stand in the order of their numbers, those that are closed last; chassis files apart', () => {
  const list = listed(
    job('W-12'),
    job('W-3', 'signed'),
    chassis('Teal'),
    job('W-9', 'ready'),
    chassis('Marten'),
  );
  expect(list.jobs().map(nameOf)).toEqual(['W-9', 'W-12', 'W-3']);
  expect(list.chassis().map(nameOf)).toEqual(['Marten', 'Teal']);
});

test('a job that reads differently in its place is a small change', () => {
  const list = listed(job('W-1'), job('W-2'));
  const newer = { ...job('W-2'), stage: 'after first pull' };
  expect(list.apply(change([newer]))).toEqual([newer]);
  expect(list.get(newer.uri)).toEqual(newer);
});

test.each([
  ['a new file', change([job('W-3')])],
  ['a file that is gone', change([], [job('W-1').uri])],
  ['a job that was closed', change([job('W-1', 'signed')])],
  [
    'a file that cannot be read any more',
    change([{ kind: 'unreadable', uri: job('W-1').uri, message: 'no' }]),
  ],
])('%s changes the list', (_, changed) => {
  expect(listed(job('W-1'), job('W-2')).apply(changed)).toBeNull();
});

test('a new listing takes the place of the old one; none empties the list', () => {
  const list = listed(job('W-1'));
  list.take({ entries: [job('W-2')], left: 7, unread: [], checking: true });
  expect([list.jobs().map(nameOf), list.left, list.checking]).toEqual([['W-2'], 7, true]);
  list.take();
  expect([list.jobs(), list.left, list.checking]).toEqual([[], 0, false]);
});

test('what is not in the list is said above it', () => {
  const list = new EntryList();
  expect(list.message).toBeUndefined();
  list.take({ entries: [], left: 0, unread: [], checking: true });
  expect(list.message).toBe('Reading the workspace…');
  const locked = { uri: 'file:///shop/jobs%202025', message: 'this folder may not be read' };
  list.apply({ ...change([]), unread: [locked] });
  expect(list.message).toBe('Not looked into: file:///shop/jobs 2025 (this folder may not be read).');
  list.apply({ ...change([]), left: 7, unread: [locked, locked, locked] });
  expect(list.message).toBe(
    '7 more files are not listed. Not looked into: file:///shop/jobs 2025 (this folder may not be read), and 2 more (see the log).',
  );
});

test('one file in two spellings is one file', () => {
  const list = new EntryList((uri) => uri.replaceAll('%3A', ':'));
  list.take({
    entries: [{ ...job('W-1'), uri: 'file:///c%3A/w-1.readings.yaml' }],
    left: 0,
    unread: [],
    checking: false,
  });
  expect(list.get('file:///c:/w-1.readings.yaml')).toBeDefined();
  list.apply(change([], ['file:///c:/w-1.readings.yaml']));
  expect(list.jobs()).toEqual([]);
});

test('a file without an order goes by its own name', () => {
  expect(nameOf({ ...job('W-1'), order: null })).toBe('w-1');
  expect(nameOf({ kind: 'unchecked', uri: 'file:///a/left%20rail.readings.yaml', of: 'job' })).toBe(
    'left rail',
  );
  expect(fileName('file:///a/100%.readings.yaml')).toBe('100%');
});

test('what cannot be read stands with its kind', () => {
  const unreadable = (uri: string): Entry => ({ kind: 'unreadable', uri, message: 'no' });
  const list = listed(unreadable('file:///a.readings.yaml'), unreadable('file:///b.chassis.yaml'));
  expect([list.jobs().map(nameOf), list.chassis().map(nameOf)]).toEqual([['a'], ['b']]);
});
