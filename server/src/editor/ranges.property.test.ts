import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { twoBodies } from '../testing/two-bodies';
import { linesOf } from '../text/lines';
import { definitionAt } from './navigate/definition';
import { editsForMoves } from './navigate/file-moves';
import { linksIn } from './navigate/links';
import { highlightsAt, referencesAt } from './navigate/references';
import { renamableAt, renameAt } from './navigate/rename';
import { foldsIn } from './show/folding';
import { type OutlineItem, outlineOf } from './show/outline';
import { selectionsAt } from './show/selection-ranges';
import { sampleFiles, sampleJobs, sampleSpecs, type Texts } from './testing/asked';
import { damaged, damageOf, share } from './testing/damage';
import { edited, shopFolder, shopOf } from './testing/shop';

interface Range {
  readonly start: number;
  readonly end: number;
}

const expectInside = ({ start, end }: Range, text: string): void => {
  expect(start).toBeGreaterThanOrEqual(0);
  expect(end).toBeGreaterThanOrEqual(start);
  expect(end).toBeLessThanOrEqual(text.length);
};

function expectOutlineInside(item: OutlineItem, text: string): void {
  expect(item.name).not.toBe('');
  expectInside(item.range, text);
  expectInside(item.selection, text);
  expect(item.selection.start).toBeGreaterThanOrEqual(item.range.start);
  expect(item.selection.end).toBeLessThanOrEqual(item.range.end);
  for (const child of item.children) expectOutlineInside(child, text);
}

async function checkAll(texts: Texts, name: string, before: string, where: number): Promise<void> {
  const shop = shopOf(texts);
  const text = texts[name];
  for (const typed of [before, text]) {
    shop.workspace.setOpen(shopFolder + name, typed);
    await shop.analysis(name);
  }
  const analysis = await shop.analysis(name);
  const offset = Math.floor(where * text.length);
  const lineCount = linesOf(text).lineCount;
  for (const item of outlineOf(analysis)) expectOutlineInside(item, text);
  for (const { firstLine, lastLine } of foldsIn(analysis)) {
    expect(firstLine).toBeGreaterThanOrEqual(0);
    expect(lastLine).toBeGreaterThan(firstLine);
    expect(lastLine).toBeLessThan(lineCount);
  }
  for (const { range } of linksIn(analysis)) expectInside(range, text);
  const selections = selectionsAt(analysis, offset);
  selections.forEach((range, i) => {
    expectInside(range, text);
    expect(range.start <= offset && range.end >= offset).toBe(true);
    if (i > 0)
      expect(range.start <= selections[i - 1].start && range.end >= selections[i - 1].end).toBe(true);
  });
  for (const { range } of highlightsAt(analysis, offset)) expectInside(range, text);
  const definition = await definitionAt(shop.workspaceQuery(), analysis, offset);
  if (definition) expectInside(definition.about, text);
  for (const { uri, range } of definition?.targets ?? [])
    if (range) expectInside(range, texts[uri.slice(shopFolder.length)] ?? '');
  for await (const file of referencesAt(shop.workspaceQuery(), analysis, offset))
    for (const { range } of file.references) expectInside(range, file.text);
  const renamable = renamableAt(analysis, offset);
  if (renamable && 'range' in renamable) {
    expectInside(renamable.range, text);
    expect(text.slice(renamable.range.start, renamable.range.end)).toBe(renamable.name);
  }
  const renamed = await renameAt(shop.workspaceQuery(), analysis, offset, 'nose-cone');
  // edits that overlap, or lie outside of their file, are thrown out by this
  if (Array.isArray(renamed)) edited(texts, renamed);
  edited(
    texts,
    await editsForMoves(shop.workspaceQuery(), [
      { from: `${shopFolder}specs`, to: `${shopFolder}sheets/of bodies` },
    ]),
  );
}

const settings = {
  '.framewright.yaml': 'framewright: settings/1\nignore: [old]\nrules:\n  reading/coverage: off\n',
};

/** Every file of a shop in turn, edited at random, asked anywhere. */
async function checkDamaged(files: Texts, name: string, numRuns: number): Promise<void> {
  await fc.assert(
    fc.asyncProperty(damageOf(4), share, async (edits, where) => {
      await checkAll({ ...files, [name]: damaged(files[name], edits) }, name, files[name], where);
    }),
    { numRuns },
  );
}

const small = { ...twoBodies, ...settings };

it.each(Object.keys(small))(
  'every range lies in its document, however %s is edited',
  async (name) => {
    await checkDamaged(small, name, 120);
  },
  60_000,
);

it.each(sampleJobs)(
  'every range lies in its document: %s',
  async (name) => {
    await checkDamaged(sampleFiles(name), name, 10);
  },
  60_000,
);

it.each(Object.keys(sampleSpecs))(
  'every range lies in its document: %s',
  async (name) => {
    await checkDamaged(sampleFiles(sampleJobs[0]), name, 15);
  },
  60_000,
);
