import { test } from 'vitest';
import { control, job, jobFiles, measure, off, sound } from '../../testing/body';
import { found, silent } from '../testing/kit';

const name = 'reading/contradicted';
const ids = [...control, 'rail-tip-lower.L'];
const bad = (across: number) => measure('finished', off({ 'rail-tip-lower.L': [0, across, 0] }), ids);
const again = measure('read again', sound, ids);
const mark =
  '\n#     ^^^^^^^^^^^^^^^^ warning: reading/contradicted rail-tip-lower.L was 8.0 mm too far left (outboard) in “finished”, nothing was done to the car since, and here it is inside';

test('outside, and inside when read again without work between', async () => {
  await found(name, jobFiles(job(`${bad(8)}\n${again}${mark}`)));
  await found(
    name,
    jobFiles(
      job(`${bad(8)}\n  - note: reading it again\n  - observe: gap\n    part: floor\n${again}${mark}`),
    ),
  );
});

test('a reading between them that says nothing of the point parts nothing', async () => {
  await found(name, jobFiles(job(`${bad(8)}\n${measure('control', sound, control)}\n${again}${mark}`)));
});

test.each([
  ['work between them, be it on another part', `${bad(8)}\n  - replace: centre-pillar.R\n${again}`],
  [
    'the first was under load',
    `  - pull: out\n    part: front-rail.L\n${bad(8)}\n  - release: all\n${again}`,
  ],
  ['both outside', `${bad(8)}\n${measure('read again', off({ 'rail-tip-lower.L': [0, 7, 0] }), ids)}`],
  ['both inside', `${bad(2.5)}\n${again}`],
  [
    'nearer to each other than their uncertainties explain',
    `${bad(3.4)}\n${measure('read again', off({ 'rail-tip-lower.L': [0, 2.98, 0] }), ids)}`,
  ],
  ['the first was a slip of the hand', `${bad(800)}\n${again}`],
])('silent: %s', async (_, timeline) => silent(name, jobFiles(job(timeline))));
