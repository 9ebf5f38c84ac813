import { test } from 'vitest';
import { chassisWith, job, jobFiles } from '../testing/body';
import { found, silent } from '../testing/kit';

const name = 'procedure/join-alone';

test('a join that does not say to what', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - join: [rail.L, pillar]
#   ^^^^ information: procedure/join-alone to what rail.L and pillar was joined is not stated
    with: [welded, bolted]
`),
    ),
  );
});

test('one that does, or only bolts', async () => {
  await silent(name, jobFiles(job('\n  - join: rail.L\n    to: [floor]\n')));
  const bolted = chassisWith({ rail: '{ sided: true, straighten: minor, attached: bolted }' });
  await silent(name, jobFiles(job('\n  - join: rail.L\n    with: bolted\n'), bolted));
});

test('bolted on, where the chassis file has it welded', async () => {
  await found(
    name,
    jobFiles(
      job(`
  - join: [floor, rail.L]
#   ^^^^ warning: procedure/join-alone floor is said to be bolted on, and by the chassis file it is welded
    with: bolted
    to: [sill]
`),
    ),
  );
});
