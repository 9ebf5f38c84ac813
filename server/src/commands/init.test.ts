import { expect, it } from 'vitest';
import { initialFiles } from './init';

it('no file that a shop begins with fetches a program by its name: whoever has the name could put anything there', () => {
  const checking = initialFiles.filter(({ text }) => text.includes('framewright check'));
  expect(checking.map(({ path }) => path)).toEqual(
    expect.arrayContaining(['.github/workflows/framewright.yml', '.gitlab-ci.yml']),
  );
  for (const { text } of checking) expect(text).not.toMatch(/\b(npx|npm|pnpm|yarn|bunx)\b/);
});
