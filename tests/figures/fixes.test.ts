// `fix` over the samples and what may become of them: what is mended is gone, nothing else means another thing, twice is as once.
import { describe, expect, test } from 'vitest';
import { fixedText } from '../../server/src/commands/fixed-text';
import { jobJson } from '../../server/src/commands/formats/inspect-json';
import { isUnread, ruleNamed } from '../../server/src/findings/rule-list';
import { memoryFiles } from '../../server/src/workspace/testing/memory-files';
import { type Analysis, Workspace } from '../../server/src/workspace/workspace';
import { type SeededRandom, seededRandom } from '../published/seeded-random';
import { mutated, type Texts } from './mutations';
import { all, folder, samples } from './samples';

const shopWith = (texts: Texts) =>
  memoryFiles(Object.fromEntries(Object.entries(texts).map(([name, text]) => [folder + name, text])), folder);

async function analysisOf(texts: Texts, name: string): Promise<Analysis> {
  const analysis = await new Workspace(shopWith(texts)).analysis(folder + name);
  if (!('findings' in analysis)) throw new Error(`${name}: ${analysis.message}`);
  return analysis;
}

/** All figures of the stages of a job, and who signed; of a body its points. Where they stand does not count. */
function figuresOf(analysis: Analysis): unknown {
  if (analysis.kind === 'chassis')
    return [...analysis.chassis.points.values()].map(({ id, reference, limits, base, part }) => [
      id,
      reference,
      limits,
      base,
      part,
    ]);
  if (analysis.kind !== 'readings') return null;
  return jobJson(analysis, '').stages.map((stage) => ({
    tension: stage.underTension,
    base: stage.alignment?.base,
    points: stage.points.map(({ id, measured, deviation, limits, verdict }) => [
      id,
      measured,
      deviation,
      limits,
      verdict,
    ]),
    spans: stage.spans.map(({ line: _, ...span }) => span),
    unread: [stage.unreachable, stage.asBefore],
  }));
}

const unread = ({ findings }: Analysis): string[] =>
  findings.filter(({ rule }) => isUnread(rule)).map(({ rule, message }) => `${rule} ${message}`);

/** Slips of the keyboard in words before a colon: in keys and in names. */
function slipped(text: string, random: SeededRandom): string {
  return text.replace(/^( *(?:- )?)([a-z-]{5,})(?=:)/gm, (whole, head: string, word: string) => {
    if (random.uniform(0, 1) > 0.04) return whole;
    const at = 1 + Math.floor(random.uniform(0, word.length - 2));
    return head + word.slice(0, at) + word[at + 1] + word[at] + word.slice(at + 2);
  });
}

interface Tried {
  readonly mended: number;
  readonly faults: readonly string[];
}

async function tried(texts: Texts, name: string, unsafe: boolean): Promise<Tried> {
  const fixed = await fixedText(shopWith(texts), folder + name, unsafe);
  if (typeof fixed === 'string') return { mended: 0, faults: [fixed] };
  const now = { ...texts, [name]: fixed.text };
  const [before, after] = [await analysisOf(texts, name), await analysisOf(now, name)];
  const again = await fixedText(shopWith(now), folder + name, unsafe);
  const faults: string[] = [];
  if (typeof again === 'string' || again.text !== fixed.text || again.mended !== 0)
    faults.push('it is not fixed at once');
  if (unread(after).length > unread(before).length) faults.push('something cannot be read any more');
  if ((fixed.mended === 0) !== (fixed.text === texts[name])) faults.push('the count is wrong');
  const isGone = unsafe || JSON.stringify(figuresOf(before)) === JSON.stringify(figuresOf(after));
  if (!isGone) faults.push('a figure is another');
  const safe = ({ findings }: Analysis) =>
    findings.filter(({ rule, replacements }) => replacements.length === 1 && ruleNamed(rule)?.safeFix);
  if (fixed.mended > 0 && safe(after).length >= safe(before).length && !unsafe)
    faults.push('what was mended is not gone');
  return { mended: fixed.mended, faults };
}

test.each(all)('%s', async (name) => {
  for (const unsafe of [false, true]) expect((await tried(samples, name, unsafe)).faults).toEqual([]);
});

const copies = 500;
const atOnce = 25;
let mended = 0;

describe(`${copies} copies with something done to them`, () => {
  test.each(Array.from({ length: copies / atOnce }, (_, i) => i * atOnce))(
    'from %i on',
    async (first) => {
      const faults: string[] = [];
      for (let i = first; i < first + atOnce; i++) {
        const name = all[i % all.length];
        const random = seededRandom(6007 * i + 3);
        const copy = i % 2 === 0 ? { text: samples[name], by: 'slips' } : mutated(samples[name], random);
        const texts = { ...samples, [name]: slipped(copy.text, random) };
        const unsafe = i % 5 === 4;
        const one = await tried(texts, name, unsafe);
        if (!unsafe) mended += one.mended;
        for (const fault of one.faults)
          faults.push(`copy ${i} of ${name} (${copy.by}${unsafe ? ', unsafe' : ''}): ${fault}`);
      }
      expect(faults).toEqual([]);
    },
    180_000,
  );

  test('some were mended', () => expect(mended).toBeGreaterThan(50));
});
