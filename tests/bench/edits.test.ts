// An edit that spoilt its file would measure something else than it says.
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { editKinds, editsOf, spoilt } from './edits';
import { jobOf } from './generate';
import { jsonText, yamlText } from './job';
import { positionOf, type Splice, spliced } from './splice';

const { job } = jobOf(600, 0);
const ids = { judged: ['front-rail-03-upper.L', 'sill-02-lower.R'], control: ['floor-front.L'] };

const read = { yaml: (text: string) => parse(text), json: (text: string) => JSON.parse(text) };
const texts = { yaml: yamlText(job), json: jsonText(job) };

test.each(editKinds.flatMap((kind) => (['yaml', 'json'] as const).map((format) => [kind, format] as const)))(
  '%s of %s changes what it says and leaves the file whole',
  (kind, format) => {
    const edit = editsOf(kind, format, ids, 1);
    let text = texts[format];
    for (let times = 0; times < 5; times++) {
      const next = spliced(text, edit(text));
      expect(next).not.toBe(text);
      text = next;
    }
    const before = read[format](texts[format]);
    const after = read[format](text);
    const grown = after.timeline.length - before.timeline.length;
    expect(grown).toBe(kind === 'a new entry' ? 5 : 0);
    const lines = text.split('\n').length - texts[format].split('\n').length;
    expect(lines).toBe(kind.startsWith('a digit') ? 0 : 5);
    if (kind === 'a new line near the top') expect(after).toEqual(before);
    if (kind === 'a digit of a control point')
      for (const entry of after.timeline) delete entry.readings?.['floor-front.L'];
    if (kind === 'a digit of a control point')
      for (const entry of before.timeline) delete entry.readings?.['floor-front.L'];
    if (kind === 'a digit of a control point') expect(after).toEqual(before);
  },
);

test('a spoilt file holds a key that is none', () => {
  for (const format of ['yaml', 'json'] as const)
    expect(read[format](spliced(texts[format], spoilt(format)(texts[format])))).toHaveProperty('colour');
});

test('positions count lines and letters from 0', () => {
  const text = 'ab\n\ncd\n';
  const splice: Splice = { start: 5, end: 6, text: 'x' };
  expect(positionOf(text, splice.start)).toEqual({ line: 2, character: 1 });
  expect([0, 2, 3, 4, 7].map((offset) => positionOf(text, offset))).toEqual([
    { line: 0, character: 0 },
    { line: 0, character: 2 },
    { line: 1, character: 0 },
    { line: 2, character: 0 },
    { line: 3, character: 0 },
  ]);
});
