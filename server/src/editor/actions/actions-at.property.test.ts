import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { linesOf } from '../../text/lines';
import { after, difference, moment, sampleFiles, sampleJobs } from '../testing/asked';
import { actionsAt } from './actions-at';

/** How often each rule of the text is broken. */
const textErrors = (findings: readonly { rule: string }[]): string[] =>
  findings.map(({ rule }) => rule).filter((rule) => /^(text|name)\//.test(rule));

/** The lines that an action's edits touch, counted in the text as it was. */
function touchedLines(text: string, edits: readonly { start: number; end: number }[]): Set<number> {
  const lines = linesOf(text);
  const touched = edits.flatMap(({ start, end }) => {
    const [from, to] = [lines.positionAt(start).line, lines.positionAt(end).line];
    return Array.from({ length: to - from + 1 }, (_, i) => from + i);
  });
  return new Set(touched);
}

it.each(sampleJobs)(
  'whatever is offered anywhere in %s leaves a file that reads, and touches what it says',
  async (path) => {
    const files = sampleFiles(path);
    for (const lineBreak of ['\n', '\r\n']) {
      const text = files[path].replaceAll('\n', lineBreak);
      const analysis = await analysed({ ...files, [path]: text }, path);
      const known = textErrors(analysis.findings).length;
      const place = fc.nat({ max: text.length }).chain((start) =>
        fc.record({
          start: fc.constant(start),
          end: fc.nat({ max: 40 }).map((n) => Math.min(text.length, start + n)),
        }),
      );
      const tried = new Set<string>();
      await fc.assert(
        fc.asyncProperty(place, async (range) => {
          for (const action of actionsAt(analysis, range, moment)) {
            const key = JSON.stringify([action.title, action.edits]);
            // the same edit from another place is the same edit
            if (tried.has(key) || action.edits.length === 0) continue;
            tried.add(key);
            const now = after(text, action, 'a "reason": #1');
            expect(now).not.toBe(text);
            const { findings } = await analysed({ ...files, [path]: now }, path);
            // a sign-off lacks its seals until the name stands in it
            const open = action.ask?.thenSeals ? 1 : 0;
            expect(textErrors(findings).length, action.title).toBeLessThanOrEqual(known + open);
            if (lineBreak === '\r\n') expect(now.replaceAll('\r\n', ''), action.title).not.toMatch(/[\r\n]/);
            // what is not touched stands as it stood, in its order
            const touched = touchedLines(text, action.edits);
            const rest = text.split(lineBreak).filter((_, i) => !touched.has(i));
            let at = 0;
            const nowLines = now.split(lineBreak);
            for (const line of rest) {
              at = nowLines.indexOf(line, at) + 1;
              expect(at, `${action.title}: ${line}`).toBeGreaterThan(0);
            }
            if (action.title.startsWith('Insert')) {
              expect(difference(text, now).gone, action.title).toEqual([]);
              expect(findings.filter(({ rule }) => rule === 'reading/stale-summary')).toEqual([]);
            }
          }
        }),
        { numRuns: 60 },
      );
    }
  },
  120_000,
);
