import { describe, expect, it } from 'vitest';
import { carChassis, jobOn, measured } from '../../testing/car';
import { applyEdits } from '../../text/edits';
import { analysisAt } from '../testing/asked';
import { editsAfterEnter } from './next-row';

/** A file after Enter was pressed at `$0`, where the editor has put the indent of the line above on the new line. */
async function afterEnter(text: string, name = 'w.readings.yaml', lineBreak = '\n'): Promise<string> {
  const indent = /\n( *)[^\n]*\$0/.exec(text)?.[1] ?? '';
  const typed = text.replace('$0', `\n${indent}$0`).replaceAll('\n', lineBreak);
  const { analysis, offset } = await analysisAt({ 'car.chassis.yaml': carChassis, [name]: typed }, name);
  return applyEdits(analysis.text, editsAfterEnter(analysis, offset));
}

const tip = '      rail-tip-lower.L: [3012, 448, 210]';

describe('Enter behind a row of readings', () => {
  it('begins the next row with the other side of the point', async () => {
    const text = jobOn(measured(`${tip}$0`));
    const aligned = / (rail-tip-lower\.L:) (\[.*)\n( +)(.*)\n$/.exec(await afterEnter(text));
    expect(aligned?.slice(3)).toEqual(['      ', 'rail-tip-lower.R: ']);
  });

  it('walks control points first, both sides of a name together, then the sheet', async () => {
    let text = jobOn('  - measure: a\n    readings:$0');
    const walked: string[] = [];
    for (;;) {
      const now = await afterEnter(text);
      const id = /\n {6}(\S+): \n?$/.exec(now)?.[1];
      if (id === undefined) break;
      walked.push(id);
      text = now.replace(/: (\n?)$/, ': 1 2 3$0$1');
    }
    const points = [...carChassis.matchAll(/^ {2}([\w-]+): \{ (both|centre)(.*)$/gm)];
    const ids = (isBase: boolean) =>
      points
        .filter(([, , , rest]) => /base: true/.test(rest) === isBase)
        .flatMap(([, id, kind]) => (kind === 'both' ? [`${id}.L`, `${id}.R`] : [id]));
    expect(ids(true).length).toBeGreaterThan(3);
    expect(walked).toEqual([...ids(true), ...ids(false)]);
    // and every row that was typed bare is one of the language
    expect(text.match(/\[1, 2, 3\]/g)?.length).toBe(walked.length - 1);
  });

  it('takes the rows that wait as comments, without a double, and keeps a note', async () => {
    const rows = (...ids: string[]) => ids.map((id) => `      # ${id}: [ , , ]`).join('\n');
    const text = jobOn(
      `  - measure: a\n    readings:   # remove the #\n      latch: [3050, 0, 780]$0\n${rows('strut-top.R', 'strut-top.L')}   # by the stud`,
    );
    const first = await afterEnter(text);
    expect(first).toMatch(
      /\[3050, 0, 780\]\n {6}strut-top\.R: \n {6}# strut-top\.L: \[ , , \] {3}# by the stud\n?$/,
    );
    const second = await afterEnter(first.replace('strut-top.R: ', 'strut-top.R: [2250, -561, 830]$0'));
    expect(second).toMatch(/strut-top\.R: +\[.*\]\n {6}strut-top\.L: \n {6}# by the stud\n?$/);
    for (const each of [first, second]) expect(each.match(/strut-top\.L/g)).toHaveLength(1);
  });

  it('lets a row be whose figures stand behind its mark', async () => {
    const text = jobOn(measured('      latch: [3050, 0, 780]$0\n      # strut-top.R: [2250, -561, 830]'));
    expect(await afterEnter(text)).toContain('# strut-top.R: [2250, -561, 830]');
  });

  it.each([
    ['3012 448 210', '[3012, 448, 210]'],
    ['3012.1  -448.25   210', '[3012.1, -448.25, 210]'],
    ['3012,1 448,2 210,0', '[3012.1, 448.2, 210.0]'],
    ['3012,1; 448,2; 210', '[3012.1, 448.2, 210]'],
    ['3012, 448, 210', '[3012, 448, 210]'],
  ])('makes a row of %s', async (typed, row) => {
    const now = await afterEnter(jobOn(measured(`      rail-tip-lower.L: ${typed}$0`)));
    expect(now).toContain(`rail-tip-lower.L: ${row}\n      rail-tip-lower.R: `);
  });

  it.each(['3012,1, 448', '3012,1,448', '3,012 448 210', '3012 448', '1 2 3 4', 'about 3 mm'])(
    'makes nothing of %s',
    async (typed) => {
      const text = jobOn(measured(`      rail-tip-lower.L: ${typed}$0`));
      expect(await afterEnter(text)).toBe(text.replace('$0', '\n      '));
    },
  );

  it('goes on behind the last number inside the brackets', async () => {
    const now = await afterEnter(jobOn(measured('      rail-tip-lower.L: [3012, 448, 210$0]')));
    expect(now).toMatch(/ rail-tip-lower\.L: \[3012, +448, 210\]\n {6}rail-tip-lower\.R: \n$/);
  });

  it('goes on in the order of the stage before', async () => {
    const first = measured(`${tip}\n      latch: [3050, 0, 780]\n      strut-top.R: [2250, -561, 830]`);
    const second = (rows: string) => jobOn(`${first}\n  - measure: again\n    readings:\n${rows}`);
    expect(await afterEnter(second(`${tip}$0`))).toMatch(/\n {6}rail-tip-lower\.R: \n$/);
    const both = `${tip}\n      rail-tip-lower.R: [3012, -448, 210]`;
    expect(await afterEnter(second(`${both}$0`))).toMatch(/\n {6}latch: \n$/);
    const skipped = second(`      latch: [3050, 0, 780]\n${both}$0`);
    expect(await afterEnter(skipped)).toMatch(/\n {6}strut-top\.R: \n$/);
    // behind the last of that order what was passed over
    const last = second(`      strut-top.L: [2250, 561, 830]\n      strut-top.R: [2250, -561, 830]$0`);
    expect(await afterEnter(last)).toMatch(/\n {6}floor-front\.L: \n$/);
  });

  it('begins the first row below the key', async () => {
    const text = jobOn('  - measure: a\n    readings:$0');
    expect(await afterEnter(text)).toBe(jobOn('  - measure: a\n    readings:\n      floor-front.L: '));
    const noted = jobOn('  - measure: a\n    readings:   # by the arm$0');
    expect(await afterEnter(noted)).toMatch(/\n {6}floor-front\.L: \n$/);
  });

  it('aligns the rows above, as the table needs, with their comments', async () => {
    const text = jobOn(
      '  - measure: a\n    readings:\n      latch: [3050,0,780]\n      floor-front.L: [1200, 420, 95]  # first$0',
    );
    const rows = [
      '      latch:         [3050,   0, 780]',
      '      floor-front.L: [1200, 420,  95]  # first',
      '      floor-front.R: ',
    ];
    expect(await afterEnter(text)).toBe(jobOn(`  - measure: a\n    readings:\n${rows.join('\n')}`));
  });

  it('goes on behind a word, a comment, and with the line breaks of the file', async () => {
    expect(await afterEnter(jobOn(measured('      latch: unreachable$0')))).toMatch(
      /\n {6}rail-root-lower\.L: \n$/,
    );
    expect(await afterEnter(jobOn(measured('      latch: as-before$0')))).toMatch(
      /\n {6}rail-root-lower\.L: \n$/,
    );
    expect(await afterEnter(jobOn(measured(`${tip}   # bent$0`)))).toMatch(/\n {6}rail-tip-lower\.R: \n$/);
    const crlf = await afterEnter(jobOn(measured(`${tip}$0`)), 'w.readings.yaml', '\r\n');
    expect(crlf).toMatch(/\r\n {6}rail-tip-lower\.R: \r\n$/);
    expect(crlf.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  it.each([
    ['a row that is not finished', '      latch: [3050, 0, $0'],
    ['a row of nothing', '      latch: $0'],
    ['a comment', '      # first the front$0'],
  ])('begins nothing behind %s', async (_, row) => {
    const text = jobOn(measured(row));
    expect(await afterEnter(text)).toBe(text.replace('$0', `\n${/^ */.exec(row)![0]}`));
  });

  it('begins nothing where something follows on the line, where every point is read, or without a body', async () => {
    expect(await afterEnter(jobOn(measured('      latch: [3050, 0, 780]$0   # at last')))).not.toMatch(
      /rail-/,
    );
    const points = [...carChassis.matchAll(/^ {2}([\w-]+): \{ (both|centre)/gm)];
    const all = points.flatMap(([, id, kind]) => (kind === 'both' ? [`${id}.L`, `${id}.R`] : [id]));
    const rows = all.map((id) => `      ${id}: [1, 2, 3]`).join('\n');
    const full = jobOn(`  - measure: a\n    readings:\n${rows}$0`);
    expect(await afterEnter(full)).toMatch(/latch: +\[1, 2, 3\]\n {6}\n$/);
    const lost = jobOn(`${measured(tip)}$0`).replace('car.chassis', 'lost.chassis');
    expect(await afterEnter(lost)).toMatch(/\n {6}\n$/);
  });

  it('begins nothing outside of readings', async () => {
    const spans = jobOn('  - measure: a\n    spans:\n      - [latch, rail-tip-lower.L, 790.0]$0');
    expect(await afterEnter(spans)).toMatch(/790\.0\]\n {6}\n$/);
    const conditions = `${jobOn(measured(tip))}base: [latch]$0`;
    expect(await afterEnter(conditions)).toBe(conditions.replace('$0', '\n'));
  });
});

it('Enter in a chassis file aligns its points and begins nothing', async () => {
  const text = 'framewright: chassis/1\npoints:\n  a: {both: [1,2,3]}$0\n  long: { centre: [10, 0, 30] }\n';
  expect(await afterEnter(text, 'b.chassis.yaml')).toBe(
    'framewright: chassis/1\npoints:\n  a:    { both: [ 1, 2,  3] }\n  \n  long: { centre: [10, 0, 30] }\n',
  );
});

it('at the head of a file nothing is above', async () => {
  const { analysis } = await analysisAt(
    { 'w.readings.yaml': '$0framewright: readings/1\n' },
    'w.readings.yaml',
  );
  expect(editsAfterEnter(analysis, 0)).toEqual([]);
});
