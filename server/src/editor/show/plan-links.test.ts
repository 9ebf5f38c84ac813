import { describe, expect, it } from 'vitest';
import { planReport } from '../../commands/plan';
import { inspectionOf, jobOn, measured } from '../../testing/car';
import { planLinks } from './plan-links';

const rows = (off: number) =>
  ['rail-tip-lower.L: [3012', 'rail-tip-upper.L: [3012']
    .map((start, i) => `      ${start}, ${448 + 4 * i + off}, ${i === 0 ? 210 : 352}]`)
    .join('\n');

describe('the names in a plan', () => {
  it('lead to the newest row of each point', () => {
    const job = jobOn(`${measured(rows(9))}\n${measured(rows(8), 'again')}`);
    const inspection = inspectionOf(job);
    const plan = planReport(inspection) ?? '';
    const links = planLinks(plan, inspection, job);
    expect(links.length).toBeGreaterThan(2);
    for (const { line, start, end, row } of links) {
      const id = plan.split('\n')[line].slice(start, end);
      expect(job.split('\n')[row.line].slice(row.character)).toMatch(new RegExp(`^${id}: `));
      expect(job.split('\n').findLastIndex((text) => text.trim().startsWith(`${id}:`))).toBe(row.line);
    }
  });
});
