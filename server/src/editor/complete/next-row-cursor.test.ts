// Where the cursor ends after Enter: behind the name that was begun, so that what is typed next are its figures.
import { expect, it } from 'vitest';
import { carChassis, jobOn, measured } from '../../testing/car';
import { analysisAt } from '../testing/asked';
import { withCursorAfter } from '../testing/cursor-after';
import { editsAfterEnter } from './next-row';

/** A file after Enter at `$0`, with the indent that the editor gives the new line, `$0` where the cursor ends. */
async function entered(text: string, indent = 6, lineBreak = '\n'): Promise<string> {
  const name = 'w.readings.yaml';
  const typed = text.replace('$0', `\n${' '.repeat(indent)}$0`).replaceAll('\n', lineBreak);
  const { analysis, offset } = await analysisAt({ 'car.chassis.yaml': carChassis, [name]: typed }, name);
  return withCursorAfter(analysis.text, editsAfterEnter(analysis, offset), offset).replaceAll('\r\n', '\n');
}

const head = '  - measure: a\n    readings:$0';
const row = '      rail-tip-lower.L: [3012, 448, 210]';
const waits = (id: string): string => `      # ${id}: [ , , ]`;
const right = 'rail-tip-lower.R';

it.each([
  ['the key', `${head}`, 'floor-front.L'],
  ['the key, a row waiting below', `${head}\n${waits('latch')}`, 'latch'],
  ['the key, two rows waiting below', `${head}\n${waits('latch')}\n${waits('strut-top.L')}`, 'latch'],
  ['the key, a blank line between', `${head}\n\n${waits('latch')}`, 'latch'],
  ['the key, a row waiting with a note', `${head}\n${waits('latch')}   # by the stud`, 'latch'],
  ['the key, a row waiting with nothing behind it', `${head}\n      # latch:`, 'latch'],
  ['the key, rows of another measure below', `${head}\n${waits('latch')}\n  - note: later`, 'latch'],
  ['a row', measured(`${row}$0`), right],
  ['a row, its other side waiting below', measured(`${row}$0\n${waits(right)}`), right],
  ['a row, its other side waiting above', measured(`${waits(right)}\n${row}$0`), right],
  ['a row before spaces', measured(`${row}$0   \n${waits(right)}`), right],
  ['bare numbers', measured(`      rail-tip-lower.L: 3012 448 210$0\n${waits(right)}`), right],
  ['numbers before the bracket', measured(`${row.replace(']', '$0]')}\n${waits(right)}`), right],
  ['numbers before a space and the bracket', measured(`${row.replace(']', '$0 ]')}\n${waits(right)}`), right],
])('behind %s the cursor ends behind the name', async (_, text, id) => {
  const job = jobOn(text);
  const wanted = new RegExp(`\\n {6}${id}: \\$0 *(\\n|$)`);
  for (const indent of [0, 4, 6, 8])
    for (const lineBreak of ['\n', '\r\n'])
      for (const last of [job, job.trimEnd(), `${job}\n`]) {
        const now = await entered(last, indent, lineBreak);
        expect(now).toMatch(wanted);
        // and the row waits no longer
        expect(now.split(`${id}:`)).toHaveLength(2);
      }
});
