import { test } from 'vitest';
import { chassisWith, job, jobFiles } from '../../testing/body';
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
  const bolted = chassisWith({ 'front-rail': '{ sided: true, straighten: minor, attached: bolted }' });
  await silent(name, jobFiles(job('\n  - join: front-rail.L\n    with: bolted\n'), bolted));
});

test('bolted on, where the chassis file has it welded', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - join: [floor, front-rail.L]
#   ^^^^ warning: procedure/join-alone floor is said to be bolted on, and by the chassis file it is welded
    with: bolted
    to: [sill]
`),
    ),
  );
});
