// Another language is one more file: what a person reads in the manifest stands in package.nls.json alone.
import { describe, expect, it } from 'vitest';
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
