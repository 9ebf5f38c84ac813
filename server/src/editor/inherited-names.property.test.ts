import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { chassisJson, jobJson } from '../commands/formats/inspect-json';
import { jobSummary } from '../commands/formats/job-summary';
import { carChassis, jobOn, measured } from '../testing/car';
import { actionsAt } from './actions/actions-at';
import { completionPage } from './complete/completion-page';
import { completionsAt } from './complete/completions';
import { hoverAt } from './hover/hover';
import { definitionAt } from './navigate/definition';
import { referencesAt } from './navigate/references';
import { renameAt } from './navigate/rename';
import { fileEntry } from './show/jobs';
import { outlineOf } from './show/outline';
import { semanticTokens } from './show/semantic-tokens';
import { sampleFiles, sampleJobs, type Texts } from './testing/asked';
import { edited, shopOf } from './testing/shop';

/** Names that every JavaScript object has something under. */
const inherited = [...Object.getOwnPropertyNames(Object.prototype), 'prototype', 'length', 'name'];

const small: Texts = {
  '.framewright.yaml':
    'framewright: settings/1\nignore: [old]\nrules:\n  reading/coverage: off\ndecision-rule: simple\n',
  'car.chassis.yaml': `${carChassis}conditions: { powertrain: in }\nspans:\n  - { from: latch, to: floor-front.L, distance: 2023, level: false }\n`,
  'w.readings.yaml': `${jobOn(measured('      rail-tip-upper.L: [3012, 440.8, 352] # framewright-ignore reading/outside: bent'))}
  - pull: left rail
    part: front-rail.L
    hook: rail-tip-upper.L
    hold: [{ part: front-rail.L, at: 1900 }]
  - release: all
`,
};

/** Every name in a text, one of which becomes another. */
const wordsIn = (text: string): { start: number; word: string }[] =>
  [...text.matchAll(/[A-Za-z][\w-]*/g)].map((match) => ({ start: match.index, word: match[0] }));

async function askAll(texts: Texts, name: string, offset: number): Promise<void> {
  const shop = shopOf(texts);
  const analysis = await shop.analysis(name);
  const hover = hoverAt(analysis, offset);
  expect(hover === null || typeof hover.markdown === 'string').toBe(true);
  expect(hover?.markdown ?? '').not.toMatch(/native code|\[object|undefined/);
  const abilities = { snippets: true, chassisFiles: async () => ['file:///shop/car.chassis.yaml'] };
  for (const { label, subject } of await completionsAt(analysis, offset, abilities)) {
    expect(typeof label).toBe('string');
    if (subject) expect(typeof (completionPage(analysis, subject) ?? '')).toBe('string');
  }
  for (const { edits } of actionsAt(
    analysis,
    { start: offset, end: offset },
    { today: '2026-03-05', shows: new Set() },
  ))
    for (const { text } of edits) expect(typeof text).toBe('string');
  await definitionAt(shop.workspaceQuery(), analysis, offset);
  for await (const file of referencesAt(shop.workspaceQuery(), analysis, offset))
    expect(file.references.length).toBeGreaterThan(0);
  const renamed = await renameAt(shop.workspaceQuery(), analysis, offset, 'nose-cone');
  if (Array.isArray(renamed)) edited(texts, renamed);
  outlineOf(analysis);
  semanticTokens(analysis);
  fileEntry(analysis);
  for (const { message } of analysis.findings) expect(message).not.toMatch(/native code|\[object/);
  if (analysis.kind === 'chassis') expect(chassisJson(analysis, name).path).toBe(name);
  if (analysis.kind !== 'readings') return;
  expect(jobSummary(analysis, name, true).lines.length).toBeGreaterThan(0);
  expect(jobJson(analysis, name).path).toBe(name);
}

it.each(Object.keys(small))(
  'every name of %s may be one that objects inherit',
  async (name) => {
    const text = small[name];
    for (const { start, word } of wordsIn(text))
      for (const other of ['constructor', 'toString', '__proto__']) {
        const now = text.slice(0, start) + other + text.slice(start + word.length);
        await askAll({ ...small, [name]: now }, name, start + 2);
      }
  },
  120_000,
);

it('so may any in a sample, in all places at once', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...sampleJobs, 'specs/marten-hatch.chassis.yaml'),
      fc.nat(),
      fc.constantFrom(...inherited),
      async (name, nth, other) => {
        const files = sampleFiles(name.startsWith('jobs') ? name : sampleJobs[0]);
        const words = wordsIn(files[name]);
        const { start, word } = words[nth % words.length];
        const texts = Object.fromEntries(
          Object.entries(files).map(([each, text]) => [each, text.replaceAll(word, other)]),
        );
        const before = files[name].slice(0, start).replaceAll(word, other);
        await askAll(texts, name, before.length + 1);
      },
    ),
    { numRuns: 40 },
  );
}, 120_000);
