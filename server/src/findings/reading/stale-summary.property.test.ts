import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { filesOf, inspectionOf, jobOn, measured } from '../../testing/car';
import { plainOrQuoted } from '../../text/edits';
import { summaryLines } from '../../wording/summaries';
import { analysed } from '../testing/analysed';

const tenth = fc.integer({ min: -200, max: 200 }).map((n) => n / 10);
const units = fc.constantFrom('mm', 'inch');

describe('a summary', () => {
  it('that was inserted and read back is not stale', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(tenth, { minLength: 12, maxLength: 12 }), units, async (shifts, unit) => {
        const per = unit === 'mm' ? 1 : 25.4;
        const row = (id: string, x: number, y: number, z: number, i: number) =>
          `      ${id}: [${(x + shifts[i]).toFixed(1)}, ${(y + shifts[i + 1]).toFixed(1)}, ${(z + shifts[i + 2]).toFixed(1)}]`;
        const rows = [
          row('rail-root-lower.L', 1760, 441, 188, 0),
          row('rail-tip-lower.L', 3012, 448, 210, 3),
          row('rail-tip-upper.L', 3012, 452, 352, 6),
          row('rail-tip-upper.R', 3012, -452, 352, 9),
        ].join('\n');
        const timeline = measured(rows).replace(/-?\d+(\.\d+)?(?=[,\]])/g, (number) =>
          String(Number(number) / per),
        );
        const job = jobOn(timeline, `units: ${unit}\ninstrument: { uncertainty: ${0.2 / per} }`);
        const inspection = inspectionOf(job);
        const lines = summaryLines(inspection, inspection.stages[0]);
        expect(lines.length).toBeGreaterThan(4);
        const summary = lines
          .map(({ key, text }) => `      ${plainOrQuoted(key)}: ${plainOrQuoted(text)}\n`)
          .join('');
        const { findings } = await analysed(filesOf(`${job}    summary:\n${summary}`), 'w.readings.yaml');
        expect(findings.filter((each) => each.rule === 'reading/stale-summary')).toEqual([]);
        expect(findings.filter((each) => each.rule.startsWith('text/'))).toEqual([]);
      }),
      { numRuns: 25 },
    );
  });
});
