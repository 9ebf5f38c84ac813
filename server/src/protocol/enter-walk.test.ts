// Enter alone: the rows that wait in a new job are taken one after the other, through the whole of the longer sample body.
import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { newJobText } from '../../../client/src/jobs/new-job';
import { Typist } from './testing/typist';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'Date'] });
});
afterEach(() => {
  vi.useRealTimers();
});

const sheet = (name: string): string =>
  readFileSync(new URL(`../../../samples/specs/${name}.chassis.yaml`, import.meta.url), 'utf8');

const sheets = ['marten-hatch', 'teal-estate'];
const files = Object.fromEntries(
  sheets.map((name) => [`file:///shop/specs/${name}.chassis.yaml`, sheet(name)]),
);

/** The points of a sheet and of what it extends, by name, with their numbers; what a later sheet takes out is gone. */
function pointsOf(texts: readonly string[]) {
  const points = new Map<string, { ids: string[]; isControl: boolean; numbers: string }>();
  for (const text of texts)
    for (const [, name, kind, numbers, rest] of text.matchAll(
      /^ {2}([\w-]+): +(?:\{ (both|left|centre): \[(.*?)\](.*)|null\b.*)$/gm,
    ))
      if (kind === undefined) points.delete(name);
      else
        points.set(name, {
          ids: kind === 'centre' ? [name] : [`${name}.L`, `${name}.R`],
          isControl: rest.includes('base: true'),
          numbers,
        });
  return [...points.values()];
}

/** The numbers of the sheet, as an instrument on the centre line would show them. */
const shown = (id: string, numbers: string): string => {
  const [length, width, height] = numbers.split(',').map(Number);
  return `[${length}, ${id.endsWith('.R') ? -width : width}, ${height}]`;
};

it('the longer body is walked: control points, then the sheet, both sides together, no row twice', async () => {
  const name = 'teal-estate';
  const points = pointsOf(sheets.map(sheet));
  const wanted = [true, false].flatMap((control) =>
    points.filter(({ isControl }) => isControl === control).flatMap(({ ids }) => ids),
  );
  const typist = new Typist(files, (ms) => vi.advanceTimersByTimeAsync(ms));
  const chassis = { uri: `file:///shop/specs/${name}.chassis.yaml` };
  const text = (pointIds: readonly string[]) =>
    newJobText({
      order: 'W-1',
      chassisPath: `./specs/${name}.chassis.yaml`,
      pointIds,
      today: '2026-03-05',
    });
  // against the order of the sheet, so that it is not the order of the rows which leads
  await typist.opens(text(wanted.toReversed()), 'read its point');
  expect((await typist.asks<{ order: string[] }>('framewright/chassisPoints', chassis)).order).toEqual(
    wanted,
  );
  const walked: string[] = [];
  for (;;) {
    await typist.enter();
    const id = /^ {6}(\S+): $/.exec(typist.row)?.[1];
    if (id === undefined) break;
    walked.push(id);
    const { numbers } = points.find(({ ids }) => ids.includes(id))!;
    await typist.key(shown(id, numbers));
    expect(walked.length).toBeLessThanOrEqual(wanted.length);
  }
  expect(walked).toEqual(wanted);
}, 120_000);
