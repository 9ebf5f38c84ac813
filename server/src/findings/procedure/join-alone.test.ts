import { test } from 'vitest';
import { job, jobFiles } from '../../testing/body';
import { found, silent } from '../testing/kit';

const name = 'procedure/join-alone';

test('a join that does not say to what', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - join: [front-rail.L, centre-pillar]
#   ^^^^ information: procedure/join-alone to what front-rail.L and centre-pillar was joined is not stated
    with: [welded, bolted]
`),
    ),
  );
});

test('one that does, or only bolts', async () => {
  await silent(name, jobFiles(job('\n  - join: front-rail.L\n    to: [floor]\n')));
  await silent(name, jobFiles(job('\n  - join: front-rail.L\n    with: bolted\n')));
});
