import { expect, test } from 'vitest';
import { bentFrom, control, job, jobFiles, measure, rule, sound } from '../testing/body';
import { found, silent } from '../testing/kit';

const name = 'procedure/section-in-straightened';
const pull = '  - pull: left rail out\n    part: rail.L\n  - relieve: rail.L\n  - release: all\n';
const section = (at: number) => `  - section: rail.L\n    at: ${at}\n`;
const received = `${measure('as received', bentFrom(1500))}\n`;

/** Severities found. */
const severities = async (timeline: string) =>
  (await rule(name, job(timeline))).found.map(({ severity }) => severity);

test('a joint beyond the bend of the last measure before the pull', async () => {
  await found(
    name,
    jobFiles(
      job(`
${received}${pull}
  - section: rail.L
#            ^^^^^^ error: procedure/section-in-straightened rail.L is joined at 1700 mm, in metal that was bent from 1500 mm on
    at: 1700
`),
    ),
  );
});

test('a joint in sound metal before the bend, or the other side', async () => {
  await silent(name, jobFiles(job(received + pull + section(1420))));
  await silent(name, jobFiles(job(`${received}${pull}  - section: rail.R\n    at: 1700`)));
});

test('the bend start is uncertain: metal within 2u before it does not count as straight', async () => {
  const { found } = await rule(name, job(received + pull + section(1499.9)));
  expect(found.map(({ severity }) => severity)).toEqual(['error']);
});

test('no pull, no straightened metal', async () => {
  await silent(name, jobFiles(job(received + section(1700))));
});

test('a warning where no bend is known: never measured, or measured too short', async () => {
  await found(
    name,
    jobFiles(
      job(`
${pull}
  - section: rail.L
#            ^^^^^^ warning: procedure/section-in-straightened it was pulled before with no bend start known
    at: 1420
`),
    ),
  );
  const short = `${measure('as received', bentFrom(1500), [...control, 'rail-5.L', 'rail-6.L'])}\n`;
  expect(await severities(short + pull + section(1420))).toEqual(['warning']);
});

test('the pull renewed away: the part was replaced, or cut on the base’s side, in between', async () => {
  await silent(name, jobFiles(job(`${received}${pull}  - replace: rail.L\n${section(1700)}`)));
  await silent(name, jobFiles(job(received + pull + section(1420) + section(1700))));
});

test('the joint itself is gone', async () => {
  await silent(name, jobFiles(job(received + pull + section(1700) + section(1420))));
  await silent(name, jobFiles(job(`${received}${pull}${section(1700)}  - replace: rail.L\n`)));
});

test('several pulls with measures between: the worst counts, and one that shows it straight again does not make it sound', async () => {
  const straight = `${measure('after first pull', sound)}\n`;
  const less = `${measure('after first pull', bentFrom(1900, -0.02))}\n`;
  // the first bend counts though the measure before the second pull shows another farther out
  expect(await severities(received + pull + less + pull + section(1700))).toEqual(['error']);
  expect(await severities(received + pull + straight + pull + section(1700))).toEqual(['error']);
  expect(await severities(received + pull + straight + pull + section(1420))).toEqual([]);
  // each of two pulls with its own bend, the cut before both
  expect(await severities(received + pull + less + pull + section(1420))).toEqual([]);
});

test('a pull after the joint was made, with the bend still behind it, pulls the joint too', async () => {
  expect(await severities(received + section(1700) + pull)).toEqual(['error']);
  // cut before the bend: the bend is gone, and what is pulled then is not known to be bent anywhere
  expect(await severities(received + section(1420) + pull)).toEqual(['warning']);
});

test('a bend seen under load is not where the part is bent', async () => {
  const peak = measure('under load', bentFrom(1300));
  const text = `${received}  - pull: left rail out\n    part: rail.L\n${peak}\n  - pull: left rail more\n    part: rail.L\n  - release: all\n${section(1420)}`;
  expect(await severities(text)).toEqual([]);
});
