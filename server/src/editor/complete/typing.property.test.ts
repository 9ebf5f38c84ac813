import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import type { TextRange } from '../../findings/rule/finding';
import { applyEdits, type TextEdit } from '../../text/edits';
import { linesOf } from '../../text/lines';
import { parseText } from '../../text/yaml/parse';
import type { Analysis } from '../../workspace/workspace';
import { actionsAt } from '../actions/actions-at';
import { formattingEdits } from '../format/formatting';
import { lensesOf, lensWords } from '../show/code-lens';
import { inlayHints } from '../show/inlay-hints';
import { semanticTokens } from '../show/semantic-tokens';
import { moment, sampleFiles, sampleJobs, sampleSpecs, type Texts } from '../testing/asked';
import { damaged, damageOf, share } from '../testing/damage';
import { shopFolder, shopOf } from '../testing/shop';
import { completionPage } from './completion-page';
import { completionsAt } from './completions';
import { editsAfterEnter } from './next-row';

const settings =
  'framewright: settings/1\nrules:\n  reading/one-level: off   # by the shop\ndecision-rule: guarded\n';

const files: readonly { name: string; texts: Texts }[] = [
  ...sampleJobs.map((name) => ({ name, texts: sampleFiles(name) })),
  ...Object.keys(sampleSpecs).map((name) => ({ name, texts: sampleSpecs })),
  { name: '.framewright.yaml', texts: { '.framewright.yaml': settings } },
];

const expectInside = ({ start, end }: TextRange, { start: from, end: to }: TextRange): void => {
  expect(start).toBeGreaterThanOrEqual(from);
  expect(end).toBeGreaterThanOrEqual(start);
  expect(end).toBeLessThanOrEqual(to);
};

/** Edits that overlap are thrown out. */
function expectEditsInside(edits: readonly TextEdit[], text: string): void {
  for (const edit of edits) expectInside(edit, { start: 0, end: text.length });
  applyEdits(text, edits);
}

async function expectCompletionsInside(analysis: Analysis, offset: number): Promise<void> {
  const { text } = analysis;
  const lines = linesOf(text);
  const { line } = lines.positionAt(offset);
  const able = { snippets: true, chassisFiles: async () => ['file:///shop/specs/a.chassis.yaml'] };
  const found = await completionsAt(analysis, offset, able);
  for (const { label, replaces, text: written } of found) {
    expect(label).not.toBe('');
    expect(written).not.toBe('');
    // an editor replaces a word round the cursor, on its line
    expectInside(replaces, { start: lines.startOf(line), end: lines.endOf(line) });
    expectInside({ start: offset, end: offset }, replaces);
  }
  for (const { subject } of found.slice(0, 3))
    if (subject) expect(completionPage(analysis, subject)).not.toBe('');
}

async function checkAll(analysis: Analysis, where: number, length: number): Promise<void> {
  const { text } = analysis;
  const whole = { start: 0, end: text.length };
  const lines = linesOf(text);
  // no position is inside a line break
  const { line, character } = lines.positionAt(Math.floor(where * text.length));
  const offset = lines.offsetAt(line, character);
  const range = { start: offset, end: Math.min(text.length, offset + length) };
  await expectCompletionsInside(analysis, offset);
  expectEditsInside(formattingEdits(analysis), text);
  expectEditsInside(formattingEdits(analysis, range), text);
  expectEditsInside(editsAfterEnter(analysis, offset), text);
  const tokens = semanticTokens(analysis);
  for (const token of tokens) {
    expectInside(token, whole);
    expect(text.slice(token.start, token.end)).not.toMatch(/[\r\n]/);
  }
  // what was found before the edit moves with the text
  const numbers = ({ type }: { type: string }): boolean => type === 'number';
  expect(tokens.filter(numbers)).toEqual(
    semanticTokens({ ...analysis, tree: parseText(text) }).filter(numbers),
  );
  for (const { range: at, about } of lensesOf(analysis, new Set(['framewright.signOff']))) {
    expectInside(at, whole);
    if (analysis.kind === 'readings') expect(lensWords(analysis, about)?.title).not.toBe('');
  }
  if (analysis.kind === 'readings')
    for (const { offset: at } of inlayHints(analysis, range, { stages: 'all', certainty: true, show: 'all' }))
      expectInside({ start: at, end: at }, range);
  for (const { edits } of actionsAt(analysis, range, moment)) expectEditsInside(edits, text);
}

it.each(files)(
  'every range that is given while $name is typed lies in it',
  async ({ name, texts }) => {
    await fc.assert(
      fc.asyncProperty(damageOf(4), share, fc.nat({ max: 400 }), async (edits, where, length) => {
        // what an edit leaves alone is taken over from the reading before it
        const shop = shopOf(texts);
        for (const text of [texts[name], damaged(texts[name], edits)]) {
          shop.workspace.setOpen(shopFolder + name, text);
          await checkAll(await shop.analysis(name), where, length);
        }
      }),
      { numRuns: 10 },
    );
  },
  60_000,
);
