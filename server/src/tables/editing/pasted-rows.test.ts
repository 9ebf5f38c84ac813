import { describe, expect, it } from 'vitest';
import { sampleTexts } from '../../commands/recorded.fixture';
import { analysed } from '../../findings/testing/analysed';
import { applyEdits } from '../../text/edits';
import { type Pasted, pastedRows, standingRows } from './pasted-rows';

const one = 'jobs/one.readings.yaml';
const head = `framewright: readings/1
chassis: ../specs/marten-hatch.chassis.yaml
order: W-2041
timeline:
  - measure: as received
    readings:             # remove the # of a row when you read its point
`;
const table = 'Punkt;X;Y;Z\nfloor front L;1593,4;370,1;716,5\nfloor front R;1627,4;-468,5;708,7\n';
const rows = '      floor-front.L: [1593.4,  370.1, 716.5]\n      floor-front.R: [1627.4, -468.5, 708.7]';

/** The file after a paste at `$0`, or over what stands between two of them; the refusal, or null where nothing is offered. */
async function pasted(name: string, marked: string, text: string, texts: Record<string, string> = {}) {
  const [before, over, ...behind] = marked.split('$0');
  const plain = [before, over, ...behind].join('');
  const analysis = await analysed({ ...sampleTexts, ...texts, [name]: plain }, name);
  const end = before.length + (behind.length > 0 ? over.length : 0);
  return shown(plain, pastedRows(analysis, { start: before.length, end }, text));
}

const shown = (text: string, made: Pasted | null) =>
  made === null ? null : made.kind === 'refused' ? made.message : applyEdits(text, [made.edit]);

describe('a table pasted under readings', () => {
  it('becomes rows of the language', async () => {
    expect(await pasted(one, `${head}      $0\n`, table)).toBe(`${head}${rows}\n`);
    // tabs, as a spreadsheet copies
    expect(await pasted(one, `${head}      $0\n`, table.replaceAll(';', '\t'))).toBe(`${head}${rows}\n`);
    // behind the key itself, and at the end of the file
    const key = head.trimEnd();
    expect(await pasted(one, `${key}$0\n`, table)).toBe(`${key}\n${rows}\n`);
    expect(await pasted(one, `${head}$0`, table)).toBe(`${head}${rows}`);
  });

  it('takes the place of rows that wait, and of a name without numbers', async () => {
    const text = `${head}      # latch: [ , , ]\n      # floor-front.L: [ , , ]\n      $0\n      # floor-front.R: [ , , ]   # soon\n      next: [1, 2, 3]\n`;
    expect(await pasted(one, text, table)).toBe(
      `${head}      # latch: [ , , ]\n${rows}\n      next: [1, 2, 3]\n`,
    );
    const begun = `${head}      latch: [1, 2, 3]\n      floor-front.R: $0\n`;
    expect(await pasted(one, begun, table)).toBe(`${head}      latch: [1, 2, 3]\n${rows}\n`);
  });

  it('leaves what is not understood, and what is read already, as comments with their reason', async () => {
    const text = `${head}      floor-front.L: [1593.4, 370.1, 716.5]\n      $0\n`;
    const after = await pasted(one, text, `${table}nonsense;1;2;3\nfloor rear L;x;2;3\n`);
    expect(after).toContain('716.5]\n      floor-front.R: [1627.4, -468.5, 708.7]\n');
    expect(after).toContain('# floor-front.L: [1593.4,  370.1, 716.5] (is read in this measure already)');
    expect(after).toContain('# row 4: nonsense | 1 | 2 | 3 (nonsense is no point of the body');
    expect(after).toContain('# row 5: floor rear L | x | 2 | 3 (x is not a number)');
  });

  it('is read by a layout of the settings whose headings it has', async () => {
    const settings = `${sampleTexts['.framewright.yaml']}
tables:
  leg: { columns: { point: Name, length: X, width: Y, height: Z } }
  arm: { columns: { point: Punkt, length: X, width: Y, height: Z }, axes: [rearward, left, up] }
`;
    const after = await pasted(one, `${head}      $0\n`, table, { '.framewright.yaml': settings });
    expect(after).toContain('floor-front.L: [-1593.4,  370.1, 716.5]');
  });

  it('stays as it is elsewhere, and where it is no table', async () => {
    for (const text of [
      `${head}      latch: $0[1, 2, 3]\n`,
      `${head}      latch: [1, 2, 3]\n    spans:\n      $0\n`,
      `${head.replace('order: W-2041\n', 'order: W-2041\n$0\n')}      latch: [1, 2, 3]\n`,
      `${head}      latch: [[1, 2, 3],\n      $0\n        [1, 2, 4]]\n`,
    ])
      expect(await pasted(one, text, table)).toBeNull();
    const place = `${head}      $0\n`;
    for (const text of [
      'latch',
      '2026-03-05',
      '      latch: [1.0, 2.0, 3.0]\n',
      'hook: { a: 1, b: 2 }\n',
      '',
    ])
      expect(await pasted(one, place, text)).toBeNull();
  });

  it('is refused in a signed job, and where its numbers leave a doubt', async () => {
    expect(await pasted(one, `${head}      $0\n`, 'latch;1.593;2.345;16\n')).toContain('decimal: point');
    const signed = `sign-off: { by: rk, date: 2026-03-05 }\n`;
    expect(await pasted(one, `${head}      $0\n${signed}`, table)).toContain('signed');
  });

  it('keeps line breaks as the file has them', async () => {
    const text = `${head}      $0\n`.replaceAll('\n', '\r\n');
    expect(await pasted(one, text, table)).toBe(`${head}${rows}\n`.replaceAll('\n', '\r\n'));
  });
});

describe('a table pasted under points', () => {
  const chassis = 'specs/own.chassis.yaml';
  const body = 'framewright: chassis/1\nvehicle: Marten\nunits: mm\npoints:\n';

  it('becomes points, mirror images as both', async () => {
    const text =
      'name;side;length;width;height\nrail tip;L;3012;448;210\nrail tip;R;3012;448;210\nlatch;;3100;0;640\n';
    expect(await pasted(chassis, `${body}  $0\n`, text)).toBe(
      `${body}  rail-tip: { both: [3012, 448, 210] }\n  latch:    { centre: [3100, 0, 640] }\n`,
    );
  });
});

describe('a table that stands there already', () => {
  it('becomes rows in its place', async () => {
    const text = `${head}      latch: [1, 2, 3]\n${table}      # floor-front.R: [ , , ]\n`;
    const analysis = await analysed({ ...sampleTexts, [one]: text }, one);
    const made = standingRows(analysis, text.indexOf('1593,4'));
    expect(shown(text, made)).toBe(`${head}      latch: [1, 2, 3]\n${rows}\n`);
    expect(standingRows(analysis, text.indexOf('latch'))).toBeNull();
  });
});
