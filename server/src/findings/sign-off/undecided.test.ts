import { expect, test } from 'vitest';
import { control, jobFiles, measure, off, railIds } from '../../testing/body';
import { analysed } from '../testing/analysed';
import { found, silent } from '../testing/kit';
import { against, filesOf, signedJob, stateOf } from '../testing/sign-off';

const name = 'sign-off/undecided';
const finished = (mm: number) => measure('finished', off({ 'rail-root-lower.L': [0, mm, 0] }));
const accepted = '  accepted: [{ point: rail-root-lower.L, reason: "slotted, adjusts 5" }]\n';

test('inside the limit by less than its uncertainty: a warning under the rule simple', async () => {
  await found(
    name,
    jobFiles(
      signedJob(
        finished(2.9),
        '#<^^^^^^ warning: sign-off/undecided signed off with undecided points: rail-root-lower.L (inside the limit by less than its uncertainty)\n',
      ),
    ),
  );
  expect((await stateOf(signedJob(finished(2.9)))).passes).toBe(true);
});

test('beyond the limit by less than its uncertainty: an error', async () => {
  await found(
    name,
    jobFiles(
      signedJob(
        finished(3.1),
        '#<^^^^^^ error: sign-off/undecided rail-root-lower.L (beyond the limit by less than its uncertainty)\n',
      ),
    ),
  );
  expect((await stateOf(signedJob(finished(3.1)))).remaining).toEqual(['rail-root-lower.L: undecided']);
});

test('an error under the rule guarded', async () => {
  expect(await against(signedJob(finished(2.9)), 'guarded')).toEqual([`error ${name}`]);
  expect(await against(signedJob(finished(1)), 'guarded')).toEqual([]);
});

test('decided', async () => {
  await silent(name, jobFiles(signedJob(finished(1))));
  await silent(name, jobFiles(signedJob(finished(8))));
});

test('accepted with a reason', async () => {
  for (const [mm, rule] of [
    [2.9, 'simple'],
    [3.1, 'simple'],
    [2.9, 'guarded'],
  ] as const)
    expect(await against(signedJob(finished(mm), '', accepted), rule)).toEqual([]);
  const blank = accepted.replace('slotted, adjusts 5', ' ');
  expect(await against(signedJob(finished(3.1), '', blank))).toEqual([`error ${name}`]);
});

test('a reason that says nothing accepts nothing; in a job signed before that was asked, it stands', async () => {
  const ok = signedJob(finished(3.1), '', accepted.replace('slotted, adjusts 5', 'ok'));
  expect(await against(ok)).toEqual([`error ${name}`]);
  expect(await against(ok.replace('  judged-by: 0.2\n', ''))).toEqual([]);
});

test('repeats that contradict each other: their mean passes nothing, unless it is accepted', async () => {
  const row = /rail-root-lower\.L: (\[.*\])/;
  const repeated = (text: string, apart: number) =>
    text.replace(row, (_, triple: string) => {
      const [x, y, z] = JSON.parse(triple) as number[];
      return `rail-root-lower.L: [[${x}, ${y - apart / 2}, ${z}], [${x}, ${y + apart / 2}, ${z}]]`;
    });
  for (const decisionRule of ['simple', 'guarded'])
    expect(await against(repeated(signedJob(finished(0)), 0.4), decisionRule)).toEqual([]);
  const torn = repeated(signedJob(finished(0)), 1);
  expect(await against(torn)).toEqual([`error ${name}`]);
  const { undecided, remaining } = await stateOf(torn);
  expect(undecided.map(({ newest, why }) => [newest.judged.verdict, why])).toEqual([
    ['undecided', 'repeats'],
  ]);
  expect(remaining).toEqual(['rail-root-lower.L: undecided']);
  expect(await against(repeated(signedJob(finished(0), '', accepted), 1))).toEqual([]);
  // an outside point stays one
  expect(await against(repeated(signedJob(finished(20)), 1))).toEqual(['error sign-off/outside']);
});

test('a base that is not decided leaves everything judged by it undecided', async () => {
  // the middle and rear control points stand 12 mm high, together: either half of the body may be the sound one
  const torn = measure('finished', (id) => [0, 0, /^(floor-rear|tunnel-front)/.test(id) ? 12 : 0]);
  const state = await stateOf(signedJob(torn));
  expect(state.undecided.length).toBeGreaterThan(0);
  expect(state.undecided.every(({ why }) => why === 'provisional')).toBe(true);
  expect(state.undecided.length + state.outside.length).toBe(9);
  expect(state.passes).toBe(false);
});

test('an alignment carried across a pull passes nothing, until points away from the work confirm it', async () => {
  const work =
    '  - pull: back\n    part: front-rail.L\n    hook: rail-tip-lower.L\n    direction: [0, 1, 0]\n  - release: all';
  // the car slid 7 mm to the left with the pull, and so the rail that is 7 mm too far right reads right
  const left = (ids: readonly string[]) => measure('after release', off({}), ids);
  const rail = railIds('L');
  const timeline = (last: string) => `${measure('as received')}\n${work}\n${last}`;
  const carried = signedJob(timeline(left(rail)), '', '', 'scope: [front-rail.L]\n');
  expect(await against(carried)).toEqual([`error ${name}`]);
  const { undecided, passes } = await stateOf(carried);
  expect(undecided.map(({ newest, why }) => [newest.judged.id, why])).toEqual(
    rail.map((id) => [id, 'carried']),
  );
  expect(passes).toBe(false);
  const confirmed = left([...rail, 'sill-front.R', 'sill-rear.R']);
  expect(await against(signedJob(timeline(confirmed), '', '', 'scope: [front-rail.L]\n'))).toEqual([]);
});

test('without an alignment nothing is judged', async () => {
  const ids = [control[0], control[1], 'rail-root-lower.L'];
  const text = signedJob(measure('finished', off({}), ids), '', '', 'scope: [front-rail.L]\n');
  expect((await stateOf(text)).undecided.map(({ newest, why }) => [newest.judged.id, why])).toEqual([
    ['rail-root-lower.L', 'unjudged'],
  ]);
});

test('a base that is weak at a point: undecided there is an error, within is not', async () => {
  // three control points close together, far from the rail's tip
  const ids = ['floor-front.L', 'tunnel-front.L', 'tunnel-front.R', 'rail-tip-lower.L'];
  const text = (mm: number) =>
    signedJob(
      measure('finished', off({ 'rail-tip-lower.L': [0, mm, 0] }), ids),
      '',
      '',
      'scope: [front-rail.L]\n',
    );
  const whyOf = async (mm: number) => (await stateOf(text(mm))).undecided.map(({ why }) => why);
  expect(await whyOf(2)).toEqual(['weak-base']);
  const { findings } = await analysed(filesOf(text(2)), 'job.readings.yaml');
  expect(findings.find(({ rule }) => rule === name)?.message).toMatch(
    /the base is weak there.* Where the base is weak: read floor-\S+.*: that leaves ±\d\.\d/,
  );
});

const withSpan = (mm: number, text = finished(0)) =>
  text.replace('    readings:', `    spans: [[rail-root-lower.L, rail-root-lower.R, ${mm}]]\n    readings:`);

test('a distance, by the same rules', async () => {
  await found(
    name,
    jobFiles(
      signedJob(
        withSpan(885.1),
        '#<^^^^^^ error: sign-off/undecided signed off with undecided distances: rail-root-lower.L to rail-root-lower.R (beyond the limit by less than its uncertainty). Measure again\n',
      ),
    ),
  );
  expect(await against(signedJob(withSpan(884.9)))).toEqual([`warning ${name}`]);
  expect(await against(signedJob(withSpan(884.9)), 'guarded')).toEqual([`error ${name}`]);
  expect(await against(signedJob(withSpan(883)), 'guarded')).toEqual([]);
  expect(await against(signedJob(withSpan(885.1), '', accepted))).toEqual([]);
});

test('a distance that says nothing of its own: read before the last work, out of the scope, or an end is outside', async () => {
  const pulled = `${withSpan(885.1)}\n  - pull: out\n    part: front-rail.L\n  - release: all\n${finished(0)}`;
  expect((await stateOf(signedJob(pulled))).spansUndecided).toEqual([]);
  const sills = finished(0).replace(
    '    readings:',
    '    spans: [[sill-front.L, sill-front.R, 1403.1]]\n    readings:',
  );
  expect((await stateOf(signedJob(sills))).spansUndecided).toEqual([]);
  expect((await stateOf(signedJob(withSpan(885.1, finished(8))))).spansUndecided).toEqual([]);
});
