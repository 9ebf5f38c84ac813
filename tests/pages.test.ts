import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const root = path.join(import.meta.dirname, '..');
const pages = [
  'DEVELOPERS.md',
  'schemas/README.md',
  'server/README.md',
  'server/decisions.md',
  'server/other-editors.md',
  'server/what-the-gate-refuses.md',
  'server/src/README.md',
  'server/src/memory/README.md',
];

/** Every file and folder of the repository, from the root; folders end with a slash. */
const all = ['schemas', 'server', 'client', 'samples', 'tests'].flatMap((folder) =>
  readdirSync(path.join(root, folder), { recursive: true, withFileTypes: true })
    .filter(({ parentPath }) => !/[\\/](node_modules|dist|output|host|web-host)([\\/]|$)/.test(parentPath))
    .map((entry) => {
      const at = path.relative(root, path.join(entry.parentPath, entry.name)).replaceAll(path.sep, '/');
      return entry.isDirectory() ? `${at}/` : at;
    }),
);
const known = new Set([
  ...readdirSync(root),
  'schemas/',
  'server/',
  'client/',
  'samples/',
  'tests/',
  // written from any folder on: `geometry/inputs.ts`, `record.ts`
  ...all.flatMap((file) => {
    const steps = file.split('/');
    return steps.map((_, from) => steps.slice(from).join('/'));
  }),
]);

/** What a build or a run of the tests makes. */
const made = /(^|\/)(dist|output|host|web-host|web)\/|^(main\.cjs|browser\.js)$/;

/** Names of source files, pages and folders in backticks; not those with a placeholder (`NAME.ts`). */
const pathsIn = (page: string): string[] =>
  [...page.matchAll(/`([\w.-]+(?:\/[\w.-]+)*\/?)`/g)]
    .map(([, name]) => name)
    .filter(
      (name) =>
        /\.(ts|mts|mjs|cjs|md|json|js)$|\/$/.test(name) && !/NAME|FAMILY/.test(name) && !made.test(name),
    );

describe('pages name', () => {
  it.each(pages)('only files and folders that exist: %s', (page) => {
    const names = pathsIn(readFileSync(path.join(root, page), 'utf8'));
    expect(names.filter((name) => !known.has(name))).toEqual([]);
  });

  it('many of them', () => {
    expect(pathsIn(readFileSync(path.join(root, 'DEVELOPERS.md'), 'utf8')).length).toBeGreaterThan(30);
    expect(pathsIn('`geometry/gone.ts`, `findings/`, `NAME.ts`, `reading/outside`, `npm test`')).toEqual([
      'geometry/gone.ts',
      'findings/',
    ]);
    expect(known.has('geometry/inputs.ts') && !known.has('geometry/gone.ts')).toBe(true);
  });
});
