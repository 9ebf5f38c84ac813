import { expect, test } from 'vitest';
import { chassisWith, job, jobFiles, measure } from '../../testing/body';
import { analysed } from '../testing/analysed';
import { found, said, silent } from '../testing/kit';
import { hashOf, signed, signedJob } from '../testing/sign-off';

const name = 'sign-off/chassis-changed';

test('the chassis file is another one than was signed against', async () => {
  await found(
    name,
    jobFiles(
      job(
        measure('finished'),
        '',
        signed('', '', 'sha256-0badc0de').replace(
          '0badc0de\n',
          '0badc0de\n#          ^^^^^^^^^^^^^^^ error: sign-off/chassis-changed the sign-off was made against sha256-0badc0de, but body.chassis.yaml is sha256-\n',
        ),
      ),
    ),
  );
});

test('it is the same, by eight digits or all of them', async () => {
  await silent(name, jobFiles(signedJob(measure('finished'))));
  const eight = hashOf(chassisWith()).slice(0, 'sha256-'.length + 8);
  await silent(name, jobFiles(job(measure('finished'), '', signed('', '', eight))));
});

test('line ends make no difference, whichever way they were turned', async () => {
  const text = signedJob(measure('finished'));
  await silent(name, jobFiles(text, chassisWith().replaceAll('\n', '\r\n')));
  const overCrlf = signed('', '', hashOf(chassisWith().replaceAll('\n', '\r\n')));
  await silent(name, jobFiles(job(measure('finished'), '', overCrlf)));
});

test('any other change does', async () => {
  const found = await said(name, jobFiles(signedJob(measure('finished')), `${chassisWith()}# a remark\n`));
  expect(found).toHaveLength(1);
});

test('the parents that a chassis file extends are part of it, in order', async () => {
  const child = 'framewright: chassis/1\nextends: ./body.chassis.yaml\nvehicle: Teal\n';
  const text = (...texts: string[]) =>
    job(measure('finished'), '', signed('', '', hashOf(...texts))).replace('body.chassis', 'child.chassis');
  const found = async (parent: string, job: string) => {
    const files = { 'child.chassis.yaml': child, 'body.chassis.yaml': parent, 'job.readings.yaml': job };
    return (await analysed(files, 'job.readings.yaml')).findings.filter((each) => each.rule === name).length;
  };
  expect(await found(chassisWith(), text(child, chassisWith()))).toBe(0);
  expect(await found(chassisWith(), text(chassisWith(), child))).toBe(1);
  expect(await found(chassisWith({ sill: '{ sided: true }' }), text(child, chassisWith()))).toBe(1);
});

test('an open job is signed against nothing', async () => {
  await silent(name, jobFiles(job(measure('as received'))));
});
