import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Finding } from '../../findings/rule/finding';
import { analysed } from '../../findings/testing/analysed';
import { after, moment, sampleFiles, sampleJobs, sampleSpecs, type Texts } from '../testing/asked';
import { damaged, damageOf } from '../testing/damage';
import { actionsAt } from './actions-at';

const settings =
  'framewright: settings/1\nrules:\n  reading/one-level: off   # by the shop\n  base/moved: warning\ndecision-rule: guarded\n';

const files: readonly { name: string; texts: Texts }[] = [
  ...sampleJobs.map((name) => ({ name, texts: sampleFiles(name) })),
  ...Object.keys(sampleSpecs).map((name) => ({ name, texts: sampleSpecs })),
  { name: '.framewright.yaml', texts: { '.framewright.yaml': settings } },
];

/** One word or number of a text, mistyped. */
interface Slip {
  readonly nth: number;
  readonly kind: 'drop' | 'double' | 'swap' | 'capital' | 'comma' | 'quote' | 'sideless';
  readonly at: number;
}

const slip: fc.Arbitrary<Slip> = fc.record({
  nth: fc.nat(),
  kind: fc.constantFrom('drop', 'double', 'swap', 'capital', 'comma', 'quote', 'sideless'),
  at: fc.nat(),
});

function mistyped(text: string, { nth, kind, at }: Slip): string {
  const words = [...text.matchAll(/(?<=^|[\s[{,])(?!#)[A-Za-z][\w.-]{3,}(?=[\s:,\]}])|-?\d+\.\d+/gm)];
  if (words.length === 0) return text;
  const { 0: word, index } = words[nth % words.length];
  const i = at % (word.length - 1);
  const slipped = {
    drop: word.slice(0, i) + word.slice(i + 1),
    double: word.slice(0, i) + word[i] + word.slice(i),
    swap: word.slice(0, i) + word[i + 1] + word[i] + word.slice(i + 2),
    capital: word[0].toUpperCase() + word.slice(1),
    comma: word.replace('.', ','),
    quote: `"${word}"`,
    sideless: word.replace(/\.[LR]$/, ''),
  }[kind];
  return text.slice(0, index) + slipped + text.slice(index + word.length);
}

/** Enough to tell a finding from the others of its rule, wherever an edit above has moved it. */
const told = ({ rule, message }: Finding): string => `${rule}: ${message}`;

const counted = (findings: readonly Finding[]): Map<string, number> => {
  const counts = new Map<string, number>();
  for (const finding of findings) counts.set(told(finding), (counts.get(told(finding)) ?? 0) + 1);
  return counts;
};

const isError = ({ rule, severity }: Finding): boolean => /^(text|name)\//.test(rule) && severity === 'error';

/**
 * What could not be read before a fix of the text may have errors of its own, where it stands as it stood. The mended place has none,
 * nor is anything there twice.
 */
const isRevealed = (by: Finding, { rule, range }: Finding): boolean =>
  /^text\/|^name\/file-not-found$/.test(by.rule) &&
  rule !== 'text/duplicate-key' &&
  range.start !== by.range.start;

async function checkFixes(name: string, texts: Texts, text: string): Promise<void> {
  const analysis = await analysed({ ...texts, [name]: text }, name);
  for (const finding of analysis.findings) {
    if (finding.replacements.length === 0 || finding.ignored !== null) continue;
    const offered = actionsAt(analysis, finding.range, moment).filter(
      ({ mends, ask }) => mends === finding && ask === undefined,
    );
    for (const action of offered) {
      const now = after(text, action);
      const { findings } = await analysed({ ...texts, [name]: now }, name);
      const [before, later] = [counted(analysis.findings), counted(findings)];
      expect(later.get(told(finding)) ?? 0, `${action.title}: still ${told(finding)}`).toBeLessThan(
        before.get(told(finding))!,
      );
      const added = findings.filter(
        (each) =>
          isError(each) &&
          !isRevealed(finding, each) &&
          (later.get(told(each)) ?? 0) > (before.get(told(each)) ?? 0),
      );
      expect(added.map(told), `${told(finding)} → ${action.title}`).toEqual([]);
    }
  }
}

it.each(files)(
  'a fix in $name, however it is mistyped, removes its finding and adds no error of the text or of a name',
  async ({ name, texts }) => {
    const typed = fc.tuple(fc.array(slip, { minLength: 1, maxLength: 4 }), damageOf(1));
    await fc.assert(
      fc.asyncProperty(typed, async ([slips, damage]) => {
        await checkFixes(name, texts, damaged(slips.reduce(mistyped, texts[name]), damage));
      }),
      { numRuns: 12 },
    );
  },
  120_000,
);
