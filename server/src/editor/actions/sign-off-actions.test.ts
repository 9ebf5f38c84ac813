import { describe, expect, it } from 'vitest';
import { sealsOf } from '../../../../tests/seal/seal.mjs';
import { faultFinding } from '../../findings/internal/fault';
import { analysed } from '../../findings/testing/analysed';
import { filesOf, sealed, sealsToBe, signed } from '../../findings/testing/sign-off';
import { signOffState } from '../../inspection/gate/sign-off';
import { bentFrom, chassisWith, job, measure, off } from '../../testing/body';
import { applyEdits } from '../../text/edits';
import { before, chosenAt, difference, moment, offeredAt, sampleFiles, today } from '../testing/asked';
import { answerMark } from './code-action';
import { sealingOf, signOffActions } from './sign-off-actions';

const name = 'job.readings.yaml';
const title = 'Sign off the dimensions';
const head = 'scope: [front-rail.L, centre-pillar]\n';
const finished = (mm = 0) => measure('finished', off({ 'rail-root-lower.L': [0, mm, 0] }));
const offered = async (text: string, piece: string, rule?: string) =>
  [...(await offeredAt(filesOf(before(text, piece), rule), name)).keys()].filter((each) =>
    /Sign|Accept/.test(each),
  );
const state = async (text: string, rule?: string) => {
  const analysis = await analysed(filesOf(text, rule), name);
  if (analysis.kind !== 'readings' || !analysis.inspection) throw new Error('the job is not judged');
  return { ...signOffState(analysis.inspection, analysis.settings), findings: analysis.findings };
};

describe('sign off', () => {
  it('is offered at the head of the file, on the order and on the newest measure', async () => {
    const text = job(`${finished()}\n${finished()}`, `order: W-9\n${head}`);
    for (const piece of ['framewright', 'order: W-9', ': W-9', 'W-9'])
      expect(await offered(text, piece)).toEqual([title]);
    const last = text.lastIndexOf('finished');
    const marked = `${text.slice(0, last)}$0${text.slice(last)}`;
    expect([...(await offeredAt(filesOf(marked), name)).keys()]).toContain(title);
    for (const piece of ['scope', 'finished', 'rail-second-lower.L'])
      expect(await offered(text, piece)).toEqual([]);
  });

  it.each([
    ['a point outside', job(measure('finished', bentFrom(2400)), head)],
    [
      'a point not measured',
      job(finished(), 'scope: [front-rail.L, centre-pillar, sill]\n').replaceAll(/.*sill-rear\.R:.*\n/g, ''),
    ],
    ['under tension', job(`${finished()}\n  - pull: out\n    part: front-rail.L`, head)],
    [
      'worked on since',
      job(`${finished()}\n  - pull: out\n    part: front-rail.L\n  - relieve: all\n  - release: all`, head),
    ],
    ['what the maker forbids', job(`  - heat: front-rail.L\n    to: 300 C\n${finished()}`, head)],
    ['a broken text', job(`${finished()}\n  - note: [open`, head)],
    ['beyond the limit by less than its uncertainty', job(finished(3.1), head)],
    ['nothing in the scope', job(finished(), 'scope: []\n')],
    ['signed off already', job(finished(), head, signed())],
  ])('is not offered with %s', async (_, text) => {
    expect(await offered(text, 'framewright')).toEqual([]);
  });

  it('is not offered where the program failed in a rule', async () => {
    const text = job(finished(), head);
    const analysis = await analysed(filesOf(text), name);
    if (analysis.kind !== 'readings') throw new Error('a job');
    const titles = (more: typeof analysis.findings) =>
      signOffActions(
        { ...analysis, findings: [...analysis.findings, ...more] },
        { start: 0, end: 0 },
        moment,
      ).map((action) => action.title);
    expect(titles([])).toEqual([title]);
    const failure = { at: 'that rule', rules: ['base/weak'], error: new Error('no') };
    expect(titles([faultFinding(analysis.uri, text, failure)])).toEqual([]);
  });

  it('asks who, writes name and date, and seals it then', async () => {
    const text = job(finished(), head);
    const action = (await offeredAt(filesOf(before(text, 'framewright')), name)).get(title)!;
    expect(action).toMatchObject({
      kind: 'refactor.rewrite',
      ask: { question: expect.stringContaining('dimensions only'), of: 'name', thenSeals: true },
    });
    const named = await chosenAt(filesOf(before(text, 'framewright')), name, title, 'rk: "the #1"');
    const analysis = await analysed(filesOf(named), name);
    if (analysis.kind !== 'readings') throw new Error('a job');
    const now = applyEdits(named, sealingOf(analysis));
    const { added, gone } = difference(text, now);
    expect(gone).toEqual([]);
    const seals = sealsOf(now, [chassisWith()]);
    expect(added.join('').trim()).toBe(
      `sign-off:\n  by: "rk: \\"the #1\\""\n  date: ${today}\n  readings: ${seals.readings}\n  chassis: ${seals.chassis}\n  judged-by: 0.2`,
    );
    const after = await state(now);
    expect(after).toMatchObject({ closed: true, passes: true, remaining: [] });
    expect(after.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('is sealed by a fix where it was filled in by hand, and not while something stands against it', async () => {
    const text = job(finished(), head);
    const named = await chosenAt(filesOf(before(text, 'framewright')), name, title, 'rk');
    const sealTitle = 'Seal the sign-off';
    const action = (await offeredAt(filesOf(before(named, 'sign-off:')), name)).get(sealTitle);
    expect(action?.mends?.rule).toBe('text/missing-key');
    expect(await state(await chosenAt(filesOf(before(named, 'sign-off:')), name, sealTitle))).toMatchObject({
      passes: true,
      remaining: [],
    });
    for (const spoilt of [
      named.replace('by: "rk"', 'by: ""'),
      named.replace('rail-root-lower.L: [1760, 441, 188]', 'rail-root-lower.L: [1760, 450, 188]'),
    ]) {
      expect(spoilt).not.toBe(named);
      expect([...(await offeredAt(filesOf(before(spoilt, 'sign-off:')), name)).keys()]).not.toContain(
        sealTitle,
      );
    }
  });

  it('signs in nobody’s name: left unanswered it is reported', async () => {
    const text = job(finished(), head);
    const action = (await offeredAt(filesOf(before(text, 'framewright')), name)).get(title)!;
    const unanswered = applyEdits(text, action.edits).replaceAll(answerMark, '""');
    const errors = (await state(unanswered)).findings.filter(({ severity }) => severity === 'error');
    expect(errors.map(({ message }) => message).join('\n')).toMatch(/by/);
    expect(errors.map(({ rule }) => rule).sort()).toEqual([
      'sign-off/chassis-changed',
      'text/missing-key',
      'text/wrong-type',
    ]);
  });

  it('lists what is undecided inside its limit, each to be given a reason, under the rule guarded', async () => {
    const text = job(finished(2.9), head);
    expect(await offered(text, 'framewright')).toEqual([title]);
    expect(await offered(text, 'framewright', 'guarded')).toEqual([`${title}, accepting 1 undecided`]);
    const files = filesOf(before(text, 'framewright'), 'guarded');
    const action = (await offeredAt(files, name)).get(`${title}, accepting 1 undecided`)!;
    // two different things to say: the blanks are filled in by hand, and reported until they are
    expect(action.ask).toBeUndefined();
    const blank = applyEdits(text, action.edits).replaceAll(answerMark, '""');
    expect(blank).toContain('  accepted:\n    - { point: rail-root-lower.L, reason: "" }');
    expect((await state(blank, 'guarded')).passes).toBe(false);
    const filled = applyEdits(text, action.edits).replaceAll(answerMark, '"slotted"');
    const analysis = await analysed(filesOf(filled, 'guarded'), name);
    if (analysis.kind !== 'readings') throw new Error('a job');
    const now = applyEdits(filled, sealingOf(analysis));
    expect(await state(now, 'guarded')).toMatchObject({ closed: true, passes: true, remaining: [] });
  });

  it('keeps the line ends of the file', async () => {
    const crlf = job(finished(), head).replaceAll('\n', '\r\n');
    const named = await chosenAt(filesOf(before(crlf, 'framewright')), name, title);
    const analysis = await analysed(filesOf(named), name);
    if (analysis.kind !== 'readings') throw new Error('a job');
    const now = applyEdits(named, sealingOf(analysis));
    expect(now.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect((await state(now)).passes).toBe(true);
  });
});

describe('accept with a reason', () => {
  const closed = (mm: number, accepted = '') => job(finished(mm), head, signed('', accepted));
  const acceptTitle = 'Accept rail-root-lower.L with a reason';

  it('is offered on the sign-off and on the reading, for what is undecided inside its limit', async () => {
    for (const piece of ['sign-off:', 'by: rk', 'rail-root-lower.L:'])
      expect(await offered(closed(2.9), piece)).toEqual([acceptTitle]);
    expect(await offered(closed(2.9), 'rail-second-lower.L:')).toEqual([]);
    expect(await offered(closed(2.9), 'framewright')).toEqual([]);
    // decided, outside, or undecided beyond its limit
    for (const mm of [0, 9, 3.1]) expect(await offered(closed(mm), 'sign-off:')).toEqual([]);
  });

  it.each([
    ['no list yet', ''],
    [
      'a list of dashes',
      '  accepted:\n    - { point: rail-second-lower.L, reason: "hit by the jack" }   # known\n',
    ],
    [
      'a list in brackets',
      '  accepted: [{ point: rail-second-lower.L, reason: "hit by the jack" }]   # known\n',
    ],
    ['an empty list', '  accepted: []\n'],
  ])('clears it: %s', async (_, accepted) => {
    const text = closed(2.9, accepted);
    expect((await state(text, 'guarded')).passes).toBe(false);
    const files = filesOf(before(text, 'sign-off:'), 'guarded');
    expect((await offeredAt(files, name)).get(acceptTitle)?.ask?.question).toContain('rail-root-lower.L');
    const now = await chosenAt(files, name, acceptTitle, 'slotted, adjusts 5');
    const after = await state(now, 'guarded');
    expect(after).toMatchObject({ passes: true, remaining: [] });
    expect(
      after.findings.filter(({ rule }) => /^text|undecided/.test(rule) && rule !== 'reading/undecided'),
    ).toEqual([]);
    expect(now).toContain('reason: "slotted, adjusts 5"');
    if (accepted.includes('known')) expect(now).toContain('# known');
    expect(await offered(now, 'sign-off:', 'guarded')).toEqual([]);
  });

  it('mends the finding that it is offered for', async () => {
    const action = (await offeredAt(filesOf(before(closed(2.9), 'sign-off:')), name)).get(acceptTitle)!;
    expect(action.mends?.rule).toBe('sign-off/undecided');
  });
});

describe('an older signature', () => {
  const sealTitle = 'Seal it as it is now';
  const closed = job(finished(), head, signed());

  it('is sealed in the place of its fingerprint, and loses nothing else', async () => {
    const action = (await offeredAt(filesOf(before(closed, 'sign-off:')), name)).get(sealTitle);
    expect(action?.mends?.rule).toBe('sign-off/old-seal');
    const now = await chosenAt(filesOf(before(closed, 'sign-off:')), name, sealTitle);
    const seals = sealsOf(now, [chassisWith()]);
    expect(now).toBe(
      closed.replace(/chassis: sha256-\w+/, `chassis: ${seals.chassis}\n  readings: ${seals.readings}`),
    );
    expect(await state(now)).toMatchObject({ passes: true });
  });

  it('is not sealed where the chassis file was changed since', async () => {
    const files = { ...filesOf(before(closed, 'sign-off:')), 'body.chassis.yaml': `${chassisWith()}# x\n` };
    expect([...(await offeredAt(files, name)).keys()]).not.toContain(sealTitle);
  });
});

describe('reopen', () => {
  it('moves the signature into a note of the timeline, with its seals and a reason', async () => {
    const open = job(finished(), head);
    const closed = sealed(job(finished(), head, sealsToBe()));
    const { readings, chassis } = sealsOf(closed, [chassisWith()]);
    const now = await chosenAt(filesOf(before(closed, 'sign-off:')), name, 'Reopen Job', 'the "door": gap');
    expect(now.trimEnd()).toBe(
      `${open.trimEnd()}\n  - note: |-\n      signed by rk, 2026-03-05 (readings ${readings}, chassis ${chassis}, judged by 0.2); reopened ${today}: the "door": gap`,
    );
    const after = await state(now);
    expect(after).toMatchObject({ closed: false, passes: true });
    expect(after.findings.filter(({ rule }) => rule.startsWith('text/'))).toEqual([]);
    expect(await offered(now, 'framewright')).toEqual([title]);
  });

  it('keeps the comments of the block', async () => {
    const closed = sealed(job(finished(), head, sealsToBe())).replace(
      '  by: rk\n',
      '  by: "rk # 1"   # by phone\n  # framewright-ignore sign-off/no-scope: all of it\n',
    );
    const now = await chosenAt(filesOf(before(closed, 'sign-off:')), name, 'Reopen Job', 'gap');
    expect(now).toContain(
      `reopened ${today}: gap\n      # by phone\n      # was: framewright-ignore sign-off/no-scope: all of it\n`,
    );
    expect(now).not.toContain('sign-off:\n');
    const after = await state(now);
    expect(after.findings.filter(({ rule }) => /^(text|settings)\//.test(rule))).toEqual([]);
  });

  it('a sealed job takes no accepted point behind its seal', async () => {
    const text = sealed(job(finished(2.9), head, sealsToBe()));
    expect(await offered(text, 'sign-off:', 'guarded')).toEqual([]);
  });
});

it('the finished sample without its sign-off may be signed again, by the same seals', async () => {
  const path = 'jobs/w-1174-finished.readings.yaml';
  const files = sampleFiles(path);
  const open = files[path].slice(0, files[path].indexOf('\nsign-off:'));
  const named = await chosenAt({ ...files, [path]: before(open, 'measure: finished') }, path, title, 'rk');
  const analysis = await analysed(
    { ...files, [path]: named.replace(`date: ${today}`, 'date: 2026-02-20') },
    path,
  );
  if (analysis.kind !== 'readings') throw new Error('a job');
  const seals = /seal1-\w+/g;
  expect(applyEdits(analysis.text, sealingOf(analysis)).match(seals)).toEqual(files[path].match(seals));
});
