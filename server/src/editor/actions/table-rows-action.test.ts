import { expect, it } from 'vitest';
import { sampleTexts } from '../../commands/recorded.fixture';
import { applyEdits } from '../../text/edits';
import { before, offeredAt } from '../testing/asked';

const one = 'jobs/one.readings.yaml';
const head = `framewright: readings/1
chassis: ../specs/marten-hatch.chassis.yaml
timeline:
  - measure: as received
    readings:
      latch: [1, 2, 3]
`;
const title = 'Make rows of this table (2 points, 1 left as comments)';

it('rows that were pasted as they are become rows of the language', async () => {
  const text = `${head}floor front L\t1593,4\t370,1\t716,5\nfloor front R\t1627,4\t-468,5\t708,7\nno name\t1,0\t2,0\t3,0\n`;
  const offered = await offeredAt({ ...sampleTexts, [one]: before(text, '1627,4') }, one);
  expect([...offered.keys()][0]).toBe(title);
  expect(applyEdits(text, offered.get(title)?.edits ?? [])).toMatch(
    /latch: \[1, 2, 3\]\n {6}floor-front\.L: \[1593\.4, {2}370\.1, 716\.5\]\n {6}floor-front\.R: .*\n {6}# row 3: no name \|/,
  );
  // below the bare key a table is one long text to YAML
  const alone = text.replace('      latch: [1, 2, 3]\n', '');
  const offeredAlone = await offeredAt({ ...sampleTexts, [one]: before(alone, '1627,4') }, one);
  expect([...offeredAlone.keys()]).toContain(title);
  const elsewhere = await offeredAt({ ...sampleTexts, [one]: before(text, 'latch') }, one);
  expect([...elsewhere.keys()]).not.toContain(title);
});
