import { describe, expect, it } from 'vitest';
import { jobOn, measured } from '../../testing/car';
import { rowAfterEdit, type TypedRow, textBefore } from './typed-row';

const job = jobOn(
  `${measured('      latch: [3050, 0, 780]')}
    spans:
      - [latch, strut-top.L, 700]`,
);
const lineOf = (text: string, word: string): number =>
  text.split('\n').findIndex((line) => line.includes(word));
const latch = lineOf(job, 'latch:');

/** The row after an edit that puts `to` where `from` stood, with the cursor in the line where `at` stands. */
const after = (from: string, to: string, at = 'latch:', was: TypedRow | null = null): TypedRow | null => {
  const now = job.replace(from, to);
  return rowAfterEdit(was, job, now, lineOf(now, at));
};

describe('the row that is being typed', () => {
  it.each([
    ['780]', '78]', 'filled'],
    ['780]', '780', 'begun'],
    [', 780]', ', ]', 'begun'],
    ['780]', '780.]', 'begun'],
    ['780]', '780] ', 'finished'],
    ['780]', '780] # twice', 'finished'],
    ['[3050, 0, 780]', 'unreachable', 'finished'],
    ['[3050, 0, 780]', 'unreach', 'begun'],
    ['[3050, 0, 780]', '[[3050, 0, 780], [3050, 0, 781]]', 'filled'],
    ['[3050, 0, 780]', '[[3050, 0, 780], [3050, 0]]', 'begun'],
    ['[3050, 0, 780]', '', 'begun'],
    ['latch: [3050, 0, 780]', 'latch', 'begun'],
  ])('where %s becomes %s is %s', (from, to, state) => {
    expect(after(from, to, 'latch')).toEqual({ line: latch, before: '      latch: [3050, 0, 780]', state });
  });

  it('is none where something else is typed, or the cursor is elsewhere or not known', () => {
    expect(after('as received', 'as received, cold', 'as received')).toBeNull();
    expect(after('      latch:', '      # latch:')).toBeNull();
    expect(after('780]', '78]', 'as received')).toBeNull();
    expect(rowAfterEdit(null, job, job.replace('780]', '78]'), null)).toBeNull();
  });

  it.each([
    ['700]', '70]', 'filled'],
    ['700]', '70.]', 'begun'],
    [' 700]', ' ]', 'begun'],
    ['700]', '700', 'begun'],
    ['700]', '[700, 701]]', 'filled'],
    ['700]', '[700, ]]', 'begun'],
    ['700]', 'unreachable]', 'filled'],
    ['700]', 'unreach]', 'begun'],
    ['700]', '700] ', 'finished'],
    ['[latch,', '[,', 'begun'],
    ['strut-top.L, 700', 'strut, 700', 'filled'],
    ['[latch, strut-top.L, 700]', '[latch]', 'begun'],
    ['[latch, strut-top.L, 700]', '', 'begun'],
  ])('where %s of a distance becomes %s is %s', (from, to, state) => {
    const line = lineOf(job, 'strut-top.L, 700');
    const now = job.replace(from, to);
    expect(rowAfterEdit(null, job, now, line)).toEqual({ line, before: job.split('\n')[line], state });
  });

  it.each([
    ['latch: { centre: [3050, 12, 780] }', 'latch: { centre: [3050, 12, 78] }', 'filled'],
    ['latch: { centre: [3050, 12, 780] }', 'latch: { centre: [3050, 12, ] }', 'begun'],
    ['latch: { centre: [3050, 12, 780] }', 'latch: { centre: }', 'begun'],
    ['latch: { centre: [3050, 12, 780] }', 'latch: { cen }', 'begun'],
    ['latch: { centre: [3050, 12, 780] }', 'latch: null', 'finished'],
    ['left: [1, 2, 3], right: [1, 2, 4] }', 'left: [1, 2, 3], right: [1, 2] }', 'begun'],
    ['left: [1, 2, 3], right: [1, 2, 4] }', 'left: [1, 2, 3], right: [1, 2, 4], base: true }', 'filled'],
    ['distance: 700 }', 'distance: 70 }', 'filled'],
    ['distance: 700 }', 'distance: }', 'begun'],
    ['distance: 700 }', 'distance: 700', 'begun'],
    ['from: latch,', 'from: ,', 'begun'],
  ])('where %s of a body becomes %s is %s', (from, to, state) => {
    const sheet = [
      'framewright: chassis/1',
      'points:',
      '  latch: { centre: [3050, 12, 780] }',
      '  strut-top: { left: [1, 2, 3], right: [1, 2, 4] }',
      'spans:',
      '  - { from: latch, to: strut-top.L, distance: 700 }',
    ].join('\n');
    const line = lineOf(sheet, from);
    const row = rowAfterEdit(null, sheet, sheet.replace(from, to), line);
    expect(row).toEqual({ line, before: sheet.split('\n')[line], state });
  });

  it('is none of an item with a line for each key', () => {
    const item = '  - from: latch\n    to: strut-top.L\n    distance: 700';
    const blocks = `framewright: chassis/1\nspans:\n${item}\n`;
    for (const [word, to] of [
      ['from: latch', 'from: lat'],
      ['distance: 700', 'distance: 7'],
    ])
      expect(rowAfterEdit(null, blocks, blocks.replace(word, to), lineOf(blocks, word))).toBeNull();
  });

  it('stays what it was before through more edits of it, and moves with those above', () => {
    const first = after('780]', '78');
    const now = job.replace('780]', '78');
    const second = rowAfterEdit(first, now, now.replace('78\n', '781\n'), latch);
    expect(second).toEqual(first);
    const above = now.replace('timeline:', '# a note\ntimeline:');
    expect(rowAfterEdit(second, now, above, 0)).toEqual({ ...first, line: latch + 1 });
    expect(rowAfterEdit(second, now, now.replace('3050, 0, 78', '3050, 1, 78'), 0)).toBeNull();
  });

  it('is a new line that was not there, also where the table was aligned at the same time', () => {
    const now = job.replaceAll(/: +\[/g, ':   [').replace('780]', '780]\n      strut-top.L: ');
    expect(rowAfterEdit(null, job, now, latch + 1)).toEqual({ line: latch + 1, before: '', state: 'begun' });
    // many rows that are complete were not typed
    const pasted = job.replace(
      '780]',
      '780]\n      strut-top.L: [2750, 580, 900]\n      strut-top.R: unreachable',
    );
    expect(rowAfterEdit(null, job, pasted, latch + 2)).toBeNull();
  });
});

describe('the text before', () => {
  it.each(['\n', '\r\n'])('has the row as it was, and every other line', (end) => {
    const now = job.replace('3050, 0, 780]', '3').replaceAll('\n', end);
    const before = textBefore(now, { line: latch, before: '      latch: [3050, 0, 780]', state: 'begun' });
    expect(before).toBe(job.replaceAll('\n', end));
  });
});
