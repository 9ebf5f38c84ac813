import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { talliedSound } from './sound';
import { pagePath, withList } from './table';

test('sound, complete jobs are not bothered', { timeout: 300_000 }, async () => {
  const jobs = 50;
  const { errors, warned, onlyScope, signed } = await talliedSound(jobs);
  expect(errors).toBe(0);
  expect(warned).toBeLessThan(jobs / 20);
  expect(onlyScope).toBe(jobs);
  // what is not signed is undecided; were it many, little would be shown
  expect(signed).toBeGreaterThan(0.7 * jobs);
});

test('the page lists the attacks as the tables have them: `npm run gate -- --page`', () => {
  const page = readFileSync(pagePath, 'utf8');
  expect(page).toBe(withList(page));
});
