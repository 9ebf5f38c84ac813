import { expect, test } from 'vitest';
import { job, jobFiles, measure } from '../../testing/body';
import { found, silent } from '../testing/kit';
import { hashOf, sealed, sealsToBe, signed, signedJob, stateOf } from '../testing/sign-off';

const name = 'sign-off/old-seal';

test('a fingerprint and no seals', async () => {
  const text = signedJob(measure('finished')).replace(
    /(chassis: sha256-\w+\n)/,
    `$1#          ${'^'.repeat('sha256-'.length + 12)} information: ${name} nothing shows whether the job itself was changed\n`,
  );
  await found(name, jobFiles(text));
  expect((await stateOf(text)).passes).toBe(true);
});

test('silent with seals, in an open job, and where no chassis is named', async () => {
  await silent(name, jobFiles(sealed(job(measure('finished'), '', sealsToBe()))));
  await silent(name, jobFiles(job(measure('as received'))));
  expect(signed('', '', hashOf('x'))).toContain('sha256-');
});
