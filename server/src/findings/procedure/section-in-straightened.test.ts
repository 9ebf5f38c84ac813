import { expect, test } from 'vitest';
import { bentFrom, control, job, jobFiles, measure, sound } from '../../testing/body';
import { found, said, silent } from '../testing/kit';

const name = 'procedure/section-in-straightened';
const pull = '  - pull: left rail out\n    part: front-rail.L\n  - relieve: front-rail.L\n  - release: all\n';
const section = (at: number) => `  - section: front-rail.L\n    at: ${at}\n`;
const received = `${measure('as received', bentFrom(2200))}\n`;

/** Severities found. */
const severities = async (timeline: string) =>
  (await said(name, jobFiles(job(timeline)))).map(({ severity }) => severity);

test('a joint beyond the bend of the last measure before the pull', async () => {
  await found(
    name,
    jobFiles(
      job(`
${received}${pull}
  - section: front-rail.L
#            ^^^^^^^^^^^^ error: procedure/section-in-straightened front-rail.L is joined at 2500 mm, in metal that was bent from 2200 mm on
    at: 2500
`),
    ),
  );
});

test('a joint in sound metal before the bend, or the other side', async () => {
  await silent(name, jobFiles(job(received + pull + section(2120))));
  await silent(name, jobFiles(job(`${received}${pull}  - section: front-rail.R\n    at: 2500`)));
});

test('the bend start is uncertain: metal within 2u before it does not count as straight', async () => {
  const found = await said(name, jobFiles(job(received + pull + section(2199.9))));
  expect(found.map(({ severity }) => severity)).toEqual(['error']);
});

test('no pull, no straightened metal', async () => {
  await silent(name, jobFiles(job(received + section(2500))));
});

test('a warning where no bend is known: never measured, or measured too short', async () => {
  await found(
    name,
    jobFiles(
      job(`
${pull}
  - section: front-rail.L
#            ^^^^^^^^^^^^ warning: procedure/section-in-straightened it was pulled before with no bend start known
    at: 2120
`),
    ),
  );
  const short = `${measure('as received', bentFrom(2200), [...control, 'rail-front-lower.L', 'rail-tip-lower.L'])}\n`;
  expect(await severities(short + pull + section(2120))).toEqual(['warning']);
});

test('the pull renewed away: the part was replaced, or cut on the base’s side, in between', async () => {
  await silent(name, jobFiles(job(`${received}${pull}  - replace: front-rail.L\n${section(2500)}`)));
  await silent(name, jobFiles(job(received + pull + section(2120) + section(2500))));
});

test('the joint itself is gone', async () => {
  await silent(name, jobFiles(job(received + pull + section(2500) + section(2120))));
  await silent(name, jobFiles(job(`${received}${pull}${section(2500)}  - replace: front-rail.L\n`)));
});

test('several pulls with measures between: the worst counts, and one that shows it straight again does not make it sound', async () => {
  const straight = `${measure('after first pull', sound)}\n`;
  const less = `${measure('after first pull', bentFrom(2600, -0.02))}\n`;
  // the first bend counts though the measure before the second pull shows another farther out
  expect(await severities(received + pull + less + pull + section(2500))).toEqual(['error']);
  expect(await severities(received + pull + straight + pull + section(2500))).toEqual(['error']);
  expect(await severities(received + pull + straight + pull + section(2120))).toEqual([]);
  // each of two pulls with its own bend, the cut before both
  expect(await severities(received + pull + less + pull + section(2120))).toEqual([]);
});

test('a pull after the joint was made, with the bend still behind it, pulls the joint too', async () => {
  expect(await severities(received + section(2500) + pull)).toEqual(['error']);
  // cut before the bend: the bend is gone, and what is pulled then is not known to be bent anywhere
  expect(await severities(received + section(2120) + pull)).toEqual(['warning']);
});

test('a bend seen under load is not where the part is bent', async () => {
  const peak = measure('under load', bentFrom(2000));
  const text = `${received}  - pull: left rail out\n    part: front-rail.L\n${peak}\n  - pull: left rail more\n    part: front-rail.L\n  - release: all\n${section(2120)}`;
  expect(await severities(text)).toEqual([]);
});
