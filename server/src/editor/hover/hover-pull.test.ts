import { expect, it } from 'vitest';
import { job, jobFiles, measure, off } from '../../testing/body';
import { before, shownAt } from '../testing/asked';

const moved = (mm: number) => off({ 'rail-tip-lower.L': [0, mm, 0] });
const received = measure('as received', moved(-8));
const pull = (direction: string) => `  - pull: left rail out
    part: front-rail.L
    hook: rail-tip-lower.L
    direction: ${direction}
`;

async function shown(timeline: string): Promise<string> {
  const text = before(job(timeline), 'pull: left rail');
  return ((await shownAt(jobFiles(text), 'job.readings.yaml'))?.markdown ?? '').replaceAll('\\', '');
}

it('says which way each chain goes, and whether that helps', async () => {
  expect(await shown(`${received}\n${pull('[0, 3, 0]')}`)).toMatch(
    /- at rail-tip-lower\.L it pulls left \(outboard\), which \*\*helps\*\*: 8\.0 mm ±\d\.\d were left along it, by “as received”/,
  );
  expect(await shown(`${received}\n${pull('[0, -1, 0]')}`)).toMatch(
    /pulls right \(inboard\), which \*\*does not help\*\*: the point had 8\.0 mm ±\d\.\d to go the other way/,
  );
  expect(await shown(`${received}\n${pull('[0, 0, 1]')}`)).toContain(
    'nothing is certain to be left along it',
  );
  expect(await shown(pull('[0, 1, 0]'))).toContain('not known: the point was not read before');
});

it('says what it moved and what came back, once it was read before, under load and after', async () => {
  const peak = measure('under load', moved(6), ['rail-tip-lower.L']);
  const after = measure('released', moved(2));
  const pulled = `${received}\n${pull('[0, 3, 0]')}${peak}`;
  expect(await shown(pulled)).toContain('What it moved is not known before it is released');
  const markdown = await shown(`${pulled}\n  - release: all\n${after}`);
  // 14 mm out, 4 mm back
  expect(markdown).toMatch(
    /\| front-rail\.L&nbsp;&nbsp; \| 14\.0 mm ±\d\.\d&nbsp;&nbsp; \| 4\.0 mm ±\d\.\d&nbsp;&nbsp; \| 10\.0 mm ±\d\.\d&nbsp;/,
  );
  expect(markdown.indexOf('14.0 mm')).toBeLessThan(markdown.indexOf('helps'));
});
