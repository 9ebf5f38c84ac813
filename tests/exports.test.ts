import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { namesOfFiles, unimported } from './exports';

const root = path.join(import.meta.dirname, '..');
/** Called by the editor, or from the bundle of the command line, not by another file. */
const entryPoints =
  /^client\/src\/(browser|extension)\.ts#(activate|deactivate)$|^server\/src\/doors\/cli\.ts#run$/;
/** Whole packages. */
const held = /^(schemas|client|server)\/src\//;

describe('exports', () => {
  it('are all imported somewhere', () => {
    const names = unimported(namesOfFiles(root, ['schemas/src', 'server/src', 'client/src', 'tests']));
    expect(names.filter((name) => held.test(name) && !entryPoints.test(name))).toEqual([]);
  }, 120_000);

  it('are found out where nobody imports them', () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'exports-'));
    try {
      mkdirSync(path.join(folder, 'a'));
      writeFileSync(
        path.join(folder, 'a/offers.ts'),
        'export const used = 1;\nexport type Alone = 1;\nexport function idle() {}\nconst own = 2;\nexport { own as given };\n',
      );
      writeFileSync(path.join(folder, 'a/whole.ts'), 'export const one = 1;\n');
      writeFileSync(
        path.join(folder, 'a/takes.ts'),
        "import { used as mine } from './offers';\nexport * from './whole';\nimport('./late');\nmine;\n",
      );
      writeFileSync(path.join(folder, 'a/late.ts'), 'export const later = 1;\n');
      expect(unimported(namesOfFiles(folder, ['a'])).sort()).toEqual([
        'a/offers.ts#Alone',
        'a/offers.ts#given',
        'a/offers.ts#idle',
      ]);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
