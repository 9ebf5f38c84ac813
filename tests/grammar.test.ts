// Colours of the languages: each piece of text with the name that the grammars give it.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { expect, test } from 'vitest';
import oniguruma from 'vscode-oniguruma';
import textmate from 'vscode-textmate';

const client = path.join(import.meta.dirname, '../client');
const manifest = JSON.parse(readFileSync(path.join(client, 'package.json'), 'utf8'));
const wasm = createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm');
const ready = oniguruma.loadWASM(readFileSync(wasm));

const registry = new textmate.Registry({
  onigLib: ready.then(() => ({
    createOnigScanner: (patterns: string[]) => new oniguruma.OnigScanner(patterns),
    createOnigString: (text: string) => new oniguruma.OnigString(text),
  })),
  loadGrammar: async (scope: string) => {
    const entry = manifest.contributes.grammars.find(
      ({ scopeName }: { scopeName: string }) => scopeName === scope,
    );
    if (!entry) return null;
    const file = path.join(client, entry.path);
    return textmate.parseRawGrammar(readFileSync(file, 'utf8'), file);
  },
});

/** `text` → its most exact name, for all named pieces of a file. */
const named = async (language: string, text: string): Promise<[string, string][]> => {
  const grammar = await registry.loadGrammar(`source.framewright.${language}`);
  if (!grammar) throw new Error(`no grammar for ${language}`);
  const pieces: [string, string][] = [];
  let state = textmate.INITIAL;
  for (const line of text.split('\n')) {
    const result = grammar.tokenizeLine(line, state);
    state = result.ruleStack;
    for (const { startIndex, endIndex, scopes } of result.tokens) {
      if (scopes.length > 1) pieces.push([line.slice(startIndex, endIndex), scopes[scopes.length - 1]]);
    }
  }
  return pieces;
};

const name = (pieces: [string, string][], text: string): string | undefined =>
  pieces.find(([piece]) => piece === text)?.[1].replace(/\.framewright$/, '');

test('a readings file', async () => {
  const pieces = await named(
    'readings',
    `framewright: readings/1
chassis: ../specs/marten.chassis.yaml
axes: [forward, left, up]
timeline:
  - measure: as received, day 2     # from the bench
    at: 2026-03-02T09:10
    readings:
      rail-tip-lower.L: [2998.4, -450.1, 211]
      latch: unreachable
      rail-tip-lower.R: as-before
    spans:
      - [rail-tip-lower.L, strut-top.R, 1399.7]
  - observe: buckle
    part: apron.L
  - pull: left rail
    chains:
      - { hook: rail-tip-lower.L, direction: [0.2, -1, 0], force: 18 kN }
  - release: all
    note: hooks off at 16.40, all 3 [checked], L and R   # by two
  - section: front-rail.R
sign-off:
  accepted: [{ point: latch, reason: "slotted, adjusts 5" }]`,
  );
  expect(name(pieces, 'readings/1')).toBe('constant.other.format');
  expect(name(pieces, '../specs/marten.chassis.yaml')).toBe('string.unquoted');
  expect(name(pieces, 'forward')).toBe('support.constant.direction');
  for (const kind of ['measure', 'observe', 'pull', 'release', 'section']) {
    expect(name(pieces, kind)).toBe('keyword.control.entry');
  }
  expect(name(pieces, 'as received, day 2')).toBe('string.unquoted.title');
  expect(name(pieces, '# from the bench')).toBe('comment.line.number-sign');
  expect(name(pieces, '2026-03-02T09:10')).toBe('constant.other.date');
  expect(name(pieces, 'rail-tip-lower')).toBe('variable.other.point');
  expect(name(pieces, 'L')).toBe('variable.language.side');
  expect(name(pieces, '-450.1')).toBe('constant.numeric');
  expect(name(pieces, 'latch')).toBe('variable.other.point');
  expect(name(pieces, 'unreachable')).toBe('keyword.other.unreachable');
  expect(name(pieces, 'as-before')).toBe('keyword.other.unreachable');
  expect(name(pieces, 'buckle')).toBe('support.constant');
  expect(name(pieces, 'direction')).toBe('entity.name.tag');
  expect(name(pieces, 'hooks off at 16.40, all 3 [checked], L and R')).toBe('string.unquoted');
  expect(name(pieces, '# by two')).toBe('comment.line.number-sign');
  expect(name(pieces, 'kN')).toBe('keyword.other.unit');
  expect(name(pieces, 'all')).toBe('support.constant');
  expect(name(pieces, 'sign-off')).toBe('keyword.control.section');
  expect(name(pieces, '"')).toBe('string.quoted.double');
});

test('a chassis file', async () => {
  const pieces = await named(
    'chassis',
    `framewright: chassis/1
vehicle: Marten five-door hatchback, 2021 on
source: { kind: published, reference: body dimension sheet 4, date: 2026-01-12 }
tolerance: { length: 3, width: [-2, 4] }
parts:
  front-rail: { sided: true, steel: ultra-high-strength, straighten: minor }
    heat: { to: 200 C, for: 90 s }
points:
  rail-tip-upper: { both: [3012, 452.5, 352], fixing: bolt }
spans:
  - { from: rail-tip-lower.L, to: strut-top.R, distance: 1411.8, pairs: crossed }`,
  );
  expect(name(pieces, 'vehicle')).toBe('entity.name.tag');
  expect(name(pieces, 'Marten five-door hatchback, 2021 on')).toBe('string.unquoted');
  expect(name(pieces, 'body dimension sheet 4')).toBe('string.unquoted');
  expect(name(pieces, 'published')).toBe('support.constant');
  expect(name(pieces, '2026-01-12')).toBe('constant.other.date');
  expect(name(pieces, 'points')).toBe('keyword.control.section');
  expect(name(pieces, 'true')).toBe('constant.language');
  expect(name(pieces, 'ultra-high-strength')).toBe('support.constant');
  expect(name(pieces, '452.5')).toBe('constant.numeric');
  expect(name(pieces, '200')).toBe('constant.numeric');
  expect(name(pieces, 'bolt')).toBe('support.constant');
  expect(name(pieces, 'crossed')).toBe('support.constant');
  expect(name(pieces, 'strut-top')).toBe('variable.other.point');
});

test('a settings file', async () => {
  const pieces = await named(
    'settings',
    'framewright: settings/1\nrules:\n  chassis/no-source: off\n  # none\n',
  );
  expect(name(pieces, 'settings/1')).toBe('constant.other.format');
  expect(name(pieces, 'chassis/no-source')).toBe('entity.name.tag.rule');
  expect(name(pieces, 'off')).toBe('support.constant');
});

test('what is no date, number or side is not coloured as one', async () => {
  const pieces = await named('readings', 'a-1: b2\nx: 1,250.5\ny: 0x1F\nz: name.LR\nw: 12_000\n');
  expect(name(pieces, '12')).toBeUndefined();
  expect(name(pieces, '0')).toBeUndefined();
  expect(pieces.map(([, scope]) => scope)).not.toContain('variable.language.side.framewright');
});
