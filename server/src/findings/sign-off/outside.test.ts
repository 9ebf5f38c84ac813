import { expect, test } from 'vitest';
import { everything, jobFiles, measure, off } from '../../testing/body';
import { found, silent } from '../testing/kit';
import { against, signedJob, stateOf } from '../testing/sign-off';

const name = 'sign-off/outside';
const pull = '  - pull: left rail out\n    part: front-rail.L\n  - relieve: front-rail.L\n  - release: all\n';
const tipOut = off({ 'rail-tip-lower.L': [0, -8, 0], 'pillar-low.R': [4, 0, 0] });

test('points of the scope outside in their newest released reading', async () => {
  await found(
    name,
    jobFiles(
      signedJob(
        measure('finished', tipOut),
        '#<^^^^^^ error: sign-off/outside signed off with rail-tip-lower.L (8.0 mm too far right (inboard), limit ±3.0) and pillar-low.R (4.0 mm too far forward, limit ±3.0) outside. A sign-off covers dimensions only.\n',
      ),
    ),
  );
});

test('inside, out of the scope, or put right since', async () => {
  await silent(name, jobFiles(signedJob(measure('finished'))));
  await silent(name, jobFiles(signedJob(measure('finished', off({ 'rail-tip-lower.R': [0, 8, 0] })))));
  await silent(name, jobFiles(signedJob(`${measure('as received', tipOut)}\n${measure('finished')}`)));
});

test('accepting a point with a reason does not clear what is outside', async () => {
  const accepted = '  accepted: [{ point: rail-tip-lower.L, reason: slotted }]\n';
  expect(
    await against(signedJob(measure('finished', off({ 'rail-tip-lower.L': [0, -8, 0] })), '', accepted)),
  ).toEqual([`error ${name}`]);
});

test('what is not measured since the work, or still under load, is not called outside as well', async () => {
  expect(
    await against(signedJob(`${measure('before', off({ 'rail-tip-lower.L': [0, -8, 0] }))}\n${pull}`)),
  ).toEqual(['error sign-off/unmeasured']);
  const open = `${measure('before', off({ 'rail-tip-lower.L': [0, -8, 0] }))}\n  - pull: left rail out\n    part: front-rail.L\n`;
  expect(await against(signedJob(open))).toEqual(['error sign-off/tension']);
});

const span = (mm: number) => `    spans:\n      - [rail-tip-lower.L, rail-tip-lower.R, ${mm}]\n`;

test('a distance of the scope that is outside stands against it too, unless it is older than the work', async () => {
  expect(await against(signedJob(`${measure('finished')}\n${span(891)}`))).toEqual([`error ${name}`]);
  expect(await against(signedJob(`${measure('finished')}\n${span(896)}`))).toEqual([]);
  const later = `${pull}${measure('finished')}\n`;
  expect(await against(signedJob(`${measure('as received')}\n${span(891)}${later}`))).toEqual([]);
  const elsewhere = signedJob(
    `${measure('finished')}\n    spans:\n      - [rail-tip-lower.R, sill-front.R, 2006]\n`,
  );
  expect(await against(elsewhere)).toEqual([]);
});

test('a distance to a point that is outside anyway is not said twice', async () => {
  const state = await stateOf(
    signedJob(`${measure('finished', off({ 'rail-tip-lower.L': [0, -8, 0] }), everything)}\n${span(888)}`),
  );
  expect(state.remaining).toEqual(['rail-tip-lower.L: outside']);
});
