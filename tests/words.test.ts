// Another language is one more file: what a person reads in the manifest stands in package.nls.json alone, and what the client says in
// messages and questions of its own is looked up, by the words that client/l10n/bundle.l10n.json lists.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { clientWords, wordsIn } from './client-words';
import { words, writtenManifest } from './manifest';

/** Of a manifest of an extension, the keys under which a person's words stand. */
const shown = new Set([
  'title',
  'category',
  'description',
  'markdownDescription',
  'deprecationMessage',
  'markdownDeprecationMessage',
  'enumDescriptions',
  'markdownEnumDescriptions',
  'enumItemLabels',
  'aliases',
  'label',
  'name',
  'contextualTitle',
  'contents',
  'altText',
  'displayName',
]);

/** Texts under such keys, with the way to each; a name that a program looks for is none. */
function shownIn(value: unknown, way: readonly string[] = []): [way: string, text: string][] {
  const isName = way.at(-1) === 'name' && /^problem(Patterns|Matchers)$/.test(way[0] ?? '');
  const key = way.findLast((step) => !/^\d+$/.test(step)) ?? '';
  if (typeof value === 'string') return shown.has(key) && !isName ? [[way.join('.'), value]] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([step, each]) => shownIn(each, [...way, step]));
}

const { displayName, description, contributes } = writtenManifest;
const all = [...shownIn({ displayName, description }), ...shownIn(contributes)];
const keys = all.map(([, text]) => text.match(/^%([\w.-]+)%$/)?.[1] ?? '');

describe('what a person reads in the manifest', () => {
  it('is a key, and nothing else', () => {
    expect(all.length).toBeGreaterThan(70);
    expect(all.filter(([, text]) => !/^%[\w.-]+%$/.test(text))).toEqual([]);
  });

  it('has its words, and each word its place', () => {
    expect([...new Set(keys)].sort()).toEqual(Object.keys(words).sort());
    expect(Object.entries(words).filter(([, text]) => text.trim() === '')).toEqual([]);
  });
});

describe('what the client says in messages, questions and titles, and on items', () => {
  const { keys, bare } = clientWords();

  it('is looked up', () => {
    expect(bare).toEqual([]);
    expect(keys.length).toBeGreaterThan(60);
  });

  it('is listed for whoever brings another language', () => {
    const file = path.join(import.meta.dirname, '../client/l10n/bundle.l10n.json');
    const listed: Record<string, string> = JSON.parse(readFileSync(file, 'utf8'));
    expect(Object.keys(listed)).toEqual([...new Set(keys)].sort());
    expect(Object.entries(listed).filter(([key, words]) => key !== words)).toEqual([]);
    expect(writtenManifest.l10n).toBe('./l10n');
  });

  it('is found wherever it stands', () => {
    const seen = (text: string) => wordsIn('x.ts', text).bare.length;
    expect(seen("window.showInformationMessage('Not signed.')")).toBe(1);
    expect(seen('window.showErrorMessage(`$' + '{name}: not signed`)')).toBe(1);
    expect(
      seen("window.showWarningMessage(isBad ? 'Bad.' : l10n.t('Good.'), ...(more ? ['More'] : []))"),
    ).toBe(2);
    expect(seen("window.showQuickPick(picks, { title: 'Rules', placeHolder: given })")).toBe(1);
    expect(seen("item.tooltip = isNew ? 'New' : words")).toBe(1);
    expect(seen('bar.accessibilityInformation = { label: `$' + "{words}, open`, role: 'button' }")).toBe(1);
    expect(seen("window.createWebviewPanel('framewright.drawing', 'Drawing', place)")).toBe(1);
    expect(seen("item.contextValue = 'point'; item.tooltip = l10n.t('Point'); if (a.text === 'x') b()")).toBe(
      0,
    );
    expect(seen("window.showInformationMessage(l10n.t('Not signed.'), words)")).toBe(0);
    expect(seen('l10n.t(words)')).toBe(1);
  });
});
