import { describe, expect, it } from 'vitest';
import { sampleTexts } from '../../commands/recorded.fixture';
import { analysed } from '../../findings/testing/analysed';
import { fillable } from '../into-file';
import { readTable } from '../table-reading';
import { tableBytes } from '../table-text';
import { type FollowMark, followedRows, markAt, wholeLines, wholeTextLines } from './followed-rows';

const one = 'jobs/one.readings.yaml';
const head = `framewright: readings/1
chassis: ../specs/marten-hatch.chassis.yaml
timeline:
  - measure: as received
    readings:
      # floor-front.R: [ , , ]
      # latch: [ , , ]
`;
const start = 'Punkt;X;Y;Z\nfloor front L;1593,4;370,1;716,5\n';

async function followed(text: string, table: string, mark: FollowMark | null) {
  const analysis = await analysed({ ...sampleTexts, [one]: text }, one);
  const file = fillable(analysis);
  const read = readTable(table, null);
  if (typeof file === 'string' || file.kind !== 'readings' || 'message' in read) throw new Error('not read');
  return followedRows(file, read, mark, 'measured again');
}

async function taken(text: string, table: string, mark: FollowMark | null) {
  const made = await followed(text, table, mark);
  if (made.kind === 'ended') throw new Error(made.message);
  return made;
}

describe('a table that grows', () => {
  it('fills the empty measure, then its rows, then repeats, and takes nothing twice', async () => {
    const first = await taken(head, start, null);
    expect(first.text).toContain('      floor-front.L: [1593.4, 370.1, 716.5]\n');
    const same = await taken(first.text ?? '', start, first.mark);
    expect(same).toMatchObject({ text: null, rows: 0, mark: first.mark });
    const grown = `${start}floor front R;1627,4;-468,5;708,7\nnobody;1,5;2,5;3,5\nfloor front L;1593,5;370,2;716,4\n`;
    const second = await taken(first.text ?? '', grown, first.mark);
    expect(second).toMatchObject({ rows: 2, left: 1 });
    expect(second.text).toContain('      floor-front.R: [1627.4, -468.5, 708.7]\n      # latch: [ , , ]\n');
    expect(second.text).toContain('floor-front.L: [[1593.4, 370.1, 716.5], [1593.5, 370.2, 716.4]]\n');
    expect(second.text).toContain('# row 4: nobody | 1,5 | 2,5 | 3,5 (nobody is no point of the body');
    const third = await taken(second.text ?? '', `${grown}floor front L;1593,3;370,0;716,3\n`, second.mark);
    expect(third.text).toContain('[1593.5, 370.2, 716.4], [1593.3, 370.0, 716.3]]\n');
  });

  it('goes into a measure of its own once something was done to the car', async () => {
    const first = await taken(head, start, null);
    const pulled = `${first.text ?? ''}  - pull: one\n    chains:\n      - { hook: rail-tip-lower.L, direction: [1, 0, 0], force: 20 }\n  - release: all\n`;
    const second = await taken(pulled, `${start}floor front L;1593,5;370,2;716,4\n`, first.mark);
    expect(second.text).toContain(
      '  - measure: measured again\n    readings:\n      floor-front.L: [1593.5, 370.2, 716.4]\n',
    );
  });

  it('from now on leaves what stands in it', async () => {
    const read = readTable(start, null);
    if ('message' in read) throw new Error(read.message);
    const text = `${head}      latch: [1, 2, 3]\n`;
    const made = await taken(text, `${start}floor front R;1627,4;-468,5;708,7\n`, markAt(read));
    expect(made.text).toContain('floor-front.R: [1627.4');
    expect(made.text).not.toContain('floor-front.L');
  });

  it('ends where what was taken stands otherwise by now', async () => {
    const first = await taken(head, start, null);
    for (const table of [start.replace('1593,4', '1593,9'), 'Punkt;X;Y;Z\nfloor rear L;1,5;2,5;3,5\n'])
      expect(await followed(first.text ?? '', table, first.mark)).toMatchObject({ kind: 'ended' });
  });

  it('has no line that is being written', () => {
    const bytes = (text: string) => new TextEncoder().encode(text);
    const read = (of: Uint8Array) => {
      const found = tableBytes(wholeLines(of));
      return found.kind === 'text' ? wholeTextLines(found.text) : found.kind;
    };
    expect(read(bytes(`${start}floor front R;1627`))).toBe(start);
    // cut within a letter
    expect(read(bytes(`${start}Träger`).subarray(0, start.length + 3))).toBe(start);
    expect(read(bytes(start.replaceAll('\n', '\r')))).toBe(start.replaceAll('\n', '\r'));
    expect(read(bytes(`${start.replaceAll('\n', '\r\n')}floor\r`))).toBe(start.replaceAll('\n', '\r\n'));
    const wide = new Uint8Array(
      new Uint16Array([...`\uFEFF${start}flo`].map((each) => each.charCodeAt(0))).buffer,
    );
    expect(read(wide.subarray(0, wide.length - 1))).toBe(start);
  });
});
