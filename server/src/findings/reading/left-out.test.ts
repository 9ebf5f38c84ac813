import { expect, test } from 'vitest';
import { filesOf, jobOn, measured } from '../../testing/car';
import { fixed, found, said, silent } from '../testing/kit';

const name = 'reading/left-out';
const files = (rows: string) => filesOf(jobOn(measured(rows)));

test('a row with all its numbers behind a comment sign is asked about', async () => {
  await found(
    name,
    files(`      strut-top.L: [2750, 580, 900]
      # latch: [3050, 9, 780]    # read twice
#     ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ information: reading/left-out latch has its numbers but stands as a comment: is it to count?
`),
  );
});

test('and can be taken in', async () => {
  await fixed(name, files('      # latch: [3050, 0, 780]'), jobOn(measured('      latch: [3050, 0, 780]')));
});

test('a row that waits, one beside a row that counts, and what is none', async () => {
  await silent(name, files('      # latch: [ , , ]\n      # strut-top.L: [2750, 580, ]'));
  await silent(name, files('      latch: [3050, 0, 780]\n      # latch: [3050, 4, 780]'));
  await silent(name, files('      latch: unreachable    # [3050, 4, 780]\n      # nobody: [1, 2, 3]'));
  await silent(
    name,
    filesOf(jobOn(`${measured('')}\n  # latch: [3050, 0, 780]\n  - note: done\n    # latch: [3050, 0, 780]`)),
  );
});

test('in each measure by itself', async () => {
  const later = measured('      # latch: [3050, 0, 780]', 'again');
  expect(
    await said(name, filesOf(jobOn(`${measured('      latch: [3050, 0, 780]')}\n${later}`))),
  ).toHaveLength(1);
});
