import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Finding } from '../rule/finding';
import { ruleNamed } from '../rule-list';
import { analysed } from '../testing/analysed';
import { body, jobWith } from '../testing/text-jobs';

/** Whatever is done to a text, the program answers: with findings that stand in it and fixes that mend. */

const job = `${jobWith(
  `order: W-1187
units: mm
instrument: { name: bench arm 2, uncertainty: 0.5, repeatability: 0.2 }
axes: [forward, left, up]
base: [floor-front.L, floor-front.R, floor-rear.L, floor-rear.R]
conditions: { powertrain: out, suspension: out }
anchors: [floor-front, floor-rear]
scope: [front-rail.L, front-rail.R, apron]`,
  `  - measure: as received
    at: 2026-03-02T09:10
    readings:
      floor-front.L: [1200.1, 420.2, 95.4]
      floor-front.R: [[1200.3, -420.1, 94.7], [1200.2, -420.2, 94.7]]
      floor-rear.L: [-350.2, 455.1, 90.1]
      floor-rear.R: [-350.1, -455.3, 90.2]
      rail-tip-lower.L: [2998.4, 450.1, 211.0]
      strut-top.R: unreachable
    spans:
      - [rail-tip-lower.L, strut-top.R, 1399.7]
  - observe: buckle
    part: apron.L
    at: 2210
  - pull: left rail to the right
    part: front-rail.L
    chains:
      - { hook: rail-tip-lower.L, direction: [0.2, -1, 0], force: 18 kN }
    hold: [{ part: front-rail.L, at: 1900 }]
  - relieve: [front-rail.L]
  - release: all
  - section: front-rail.R
    at: 2500
  - heat: apron.R
    to: 180 C
    for: 60 s
  - note: waiting for parts
`,
)}`;
const chassis = `${body.replace('latch: { centre', 'latch: { fixing: hole, tolerance: { length: 3, width: [-2, 4] }, centre')}spans:
  - { from: rail-tip-lower, to: strut-top, distance: 989.1, pairs: straight }
`;
const texts = { 'w.readings.yaml': job, 'w.chassis.yaml': chassis };
type Name = keyof typeof texts;

const findingsOf = async (
  name: Name,
  text: string,
): Promise<{ text: string; findings: readonly Finding[] }> =>
  analysed({ 'marten.chassis.yaml': body, [name]: text }, name);

const ofText = (findings: readonly Finding[]): Finding[] =>
  findings.filter(({ rule, severity }) => /^(text|name)\//.test(rule) && severity === 'error');

function applied(text: string, { replacements: [first] }: Finding): string {
  const { block, endBlock, start, end } = first.place;
  return text.slice(0, block.start + start) + first.text + text.slice((endBlock ?? block).start + end);
}

/** What a slip of the hand puts in. */
const snippet = fc.constantFrom(
  ...[
    '',
    ' ',
    '\n',
    '\t',
    ':',
    ': ',
    ',',
    '[',
    ']',
    '{',
    '}',
    '"',
    "'",
    '#',
    '- ',
    '&a ',
    '*a',
    '|',
    '>',
    '!x ',
    '~',
    '---\n',
    '<<<<<<< HEAD\n',
  ],
  ...[
    '1,250.5',
    '12_000',
    '1e400',
    '.nan',
    '0x1F',
    '2026-03-02',
    '\uFEFF',
    '\0',
    '\r',
    'note: ',
    'pull: x',
    'null',
    '[[]]',
    '\u2028',
    '💥',
  ],
);
const name = fc.constantFrom<Name>('w.readings.yaml', 'w.chassis.yaml');
const slip = fc.tuple(
  fc.double({ min: 0, max: 1, noNaN: true }),
  fc.nat(12),
  snippet,
  fc.constantFrom('put', 'put', 'cut', 'double', 'swap'),
);

function damaged(text: string, [where, length, put, kind]: [number, number, string, string]): string {
  const at = Math.floor(where * text.length);
  if (kind === 'put') return text.slice(0, at) + put + text.slice(at);
  if (kind === 'cut') return text.slice(0, at) + put + text.slice(at + length);
  const lines = text.split('\n');
  const line = Math.min(Math.floor(where * lines.length), lines.length - 2);
  if (kind === 'double') lines.splice(line, 0, lines[line]);
  else [lines[line], lines[line + 1]] = [lines[line + 1], lines[line]];
  return lines.join('\n');
}

describe('the sound texts', () => {
  it.each(Object.entries(texts))('%s has nothing wrong with it', async (file, text) => {
    expect(ofText((await findingsOf(file as Name, text)).findings)).toEqual([]);
  });
});

describe('a damaged text', () => {
  it('is always answered, with findings of known rules that stand in it', () =>
    fc.assert(
      fc.asyncProperty(name, fc.array(slip, { minLength: 1, maxLength: 5 }), async (file, slips) => {
        const text = slips.reduce(damaged, texts[file]);
        const { findings } = await findingsOf(file, text);
        for (const { rule, message, range, replacements, related } of findings) {
          expect(ruleNamed(rule)?.name).toBe(rule);
          expect(message).not.toMatch(/undefined|NaN|\[object|Invalid input|expected .* to /);
          expect(range.start).toBeGreaterThanOrEqual(0);
          expect(range.end).toBeGreaterThanOrEqual(range.start);
          expect(range.end).toBeLessThanOrEqual(text.length);
          for (const { place } of replacements)
            expect((place.endBlock ?? place.block).start + place.end).toBeLessThanOrEqual(text.length);
          for (const each of related) expect(each.range.end).toBeGreaterThanOrEqual(each.range.start);
        }
      }),
      { numRuns: 400 },
    ));

  it('loses the finding whose fix is taken', () =>
    fc.assert(
      fc.asyncProperty(
        name,
        fc.array(slip, { minLength: 1, maxLength: 3 }),
        fc.nat(),
        async (file, slips, pick) => {
          const text = slips.reduce(damaged, texts[file]);
          const fixable = ofText((await findingsOf(file, text)).findings).filter(
            ({ replacements }) => replacements.length > 0,
          );
          if (fixable.length === 0) return;
          const finding = fixable[pick % fixable.length];
          const mended = applied(text, finding);
          const after = ofText((await findingsOf(file, mended)).findings);
          expect(
            after.filter(
              ({ rule, message, range }) =>
                rule === finding.rule && message === finding.message && range.start === finding.range.start,
            ),
          ).toEqual([]);
        },
      ),
      { numRuns: 300 },
    ));
});

describe('a text with one slip', () => {
  const words = [...new Set([job, chassis].flatMap((text) => text.match(/[a-z][a-z-]{3,}/g) ?? []))];
  const mistyped = fc.constantFrom(...words).chain((word) =>
    fc
      .tuple(fc.constant(word), fc.nat(word.length - 2), fc.constantFrom('drop', 'double', 'turn', 'other'))
      .map(([, at, kind]) => {
        const other = { drop: '', double: word[at] + word[at], turn: word[at + 1] + word[at], other: 'q' }[
          kind
        ]!;
        return { word, typed: word.slice(0, at) + other + word.slice(kind === 'turn' ? at + 2 : at + 1) };
      }),
  );

  it('in a word is as it was or better once the first fix is taken', () =>
    fc.assert(
      fc.asyncProperty(name, mistyped, fc.nat(), async (file, { word, typed }, pick) => {
        const places = [...texts[file].matchAll(new RegExp(`(?<![a-z-])${word}(?![a-z-])`, 'g'))].map(
          ({ index }) => index,
        );
        if (places.length === 0) return;
        const at = places[pick % places.length];
        const text = texts[file].slice(0, at) + typed + texts[file].slice(at + word.length);
        const before = ofText((await findingsOf(file, text)).findings);
        const finding = before.find(({ replacements }) => replacements.length > 0);
        if (finding === undefined) return;
        const after = ofText((await findingsOf(file, applied(text, finding))).findings);
        expect(after.length).toBeLessThan(before.length);
      }),
      { numRuns: 300 },
    ));

  const writings: [RegExp, (number: string) => string][] = [
    [/(?<=[[ ])\d{4}\.\d(?=[,\]])/g, (number) => number.replace('.', ',')],
    [/(?<=[[ ])\d{4}\.\d(?=[,\]])/g, (number) => `${number[0]},${number.slice(1)}`],
    [/(?<=[[ ])\d{3,4}(\.\d)?(?=[,\]])/g, (number) => `${number[0]}_${number.slice(1)}`],
    [/(?<=[[ ])\d{3,4}(\.\d)?(?=[,\]])/g, (number) => `"${number}"`],
    [/(?<=[[ ])-\d{3,4}(\.\d)?(?=[,\]])/g, (number) => number.replace('-', '−')],
    [/\[-?\d+\.\d, -?\d+\.\d, -?\d+\.\d\](?=\n)/g, (row) => row.replaceAll('.', ',')],
    [/\[-?\d+\.\d, -?\d+\.\d, -?\d+\.\d\](?=\n)/g, (row) => row.slice(1)],
    [/\[-?\d+\.\d, -?\d+\.\d, -?\d+\.\d\](?=\n)/g, (row) => row.slice(1, -1).replaceAll(',', '')],
    [/(?<=at: )\d+/g, (number) => `${number},5`],
  ];

  it('in the writing of a number is marked, and mended by its fix where it has one', async () => {
    let mended = 0;
    for (const file of Object.keys(texts) as Name[]) {
      for (const [pattern, changed] of writings) {
        for (const { 0: number, index } of texts[file].matchAll(pattern)) {
          const text =
            texts[file].slice(0, index) + changed(number) + texts[file].slice(index + number.length);
          const before = ofText((await findingsOf(file, text)).findings);
          expect(before, text.slice(index - 30, index + 30)).toHaveLength(1);
          if (before[0].replacements.length === 0) continue;
          expect(ofText((await findingsOf(file, applied(text, before[0]))).findings)).toEqual([]);
          mended++;
        }
      }
    }
    expect(mended).toBeGreaterThan(30);
  });
});
