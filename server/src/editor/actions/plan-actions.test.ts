import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { signed } from '../../findings/testing/sign-off';
import { chassisWith, control, job, measure, off } from '../../testing/body';
import { chassisText, controlIds, jobText, measureText, railIds } from '../../testing/pulled-rail';
import { before, chosenAt, difference, offeredAt, sampleFiles, type Texts } from '../testing/asked';

const name = 'w.readings.yaml';
const title = 'Insert pull plan for front-rail.L';
const ids = [...controlIds, ...railIds('L'), ...railIds('R')];
/** The left rail bent to the right ahead of 2380. */
const bent = (id: string): [number, number, number] => {
  const at = { middle: 2380, front: 2690, tip: 3000 }[id.split('-')[0]] ?? 0;
  return [0, id.endsWith('.L') && railIds('L').includes(id) ? -0.03 * Math.max(0, at - 2380) : 0, 0];
};
const text = jobText([measureText('as received', ids, bent)], 'scope: [front-rail]\nanchors: [floor-front]');
const shop = (jobFile: string, chassis = chassisText()): Texts => ({
  'marten.chassis.yaml': chassis,
  [name]: jobFile,
});
const plansAt = async (files: Texts, of = name) =>
  [...(await offeredAt(files, of)).keys()].filter((each) => each.startsWith('Insert pull plan'));

describe('where it is offered', () => {
  it.each([
    ['as received', [title]],
    ['tip-lower.L', [title]],
    ['front-rail]', [title]],
    ['tip-lower.R', []],
    ['floor-front.L:', []],
    ['W-1', []],
  ])('%s', async (piece, wanted) => expect(await plansAt(shop(before(text, piece)))).toEqual(wanted));

  it('not where the part is to be replaced', async () => {
    for (const facts of [
      'steel: high-strength, straighten: never',
      'steel: press-hardened',
      'steel: press-hardened, straighten: never',
    ])
      expect(await plansAt(shop(before(text, 'tip-lower.L'), chassisText(facts))), facts).toEqual([]);
  });

  it('not where it is kinked and only what is bent may be straightened', async () => {
    const kinked = `${text}  - observe: kink\n    part: front-rail.L\n    at: 2400\n`;
    const minor = chassisText('steel: high-strength, straighten: minor');
    expect(await plansAt(shop(before(kinked, 'tip-lower.L'), minor))).toEqual([]);
    expect(await plansAt(shop(before(text, 'tip-lower.L'), minor))).toEqual([title]);
  });

  it('not while it is under tension, nor while the text is broken', async () => {
    const pulled = `${text}  - pull: out\n    part: front-rail.L\n    hook: tip-lower.L\n    direction: [0, 1, 0]\n`;
    expect(await plansAt(shop(before(pulled, 'tip-lower.L')))).toEqual([]);
    expect(await plansAt(shop(before(`${text}  - note: [open\n`, 'tip-lower.L')))).toEqual([]);
  });

  it('not in a job that is signed off', async () => {
    const files = (signOff: string) => ({
      'body.chassis.yaml': chassisWith(),
      [name]: before(
        job(
          measure('as received', off({ 'rail-tip-lower.L': [0, -8, 0] })),
          'scope: [front-rail.L]\n',
          signOff,
        ),
        'rail-tip-lower.L',
      ),
    });
    expect(await plansAt(files(''))).toEqual(['Insert pull plan for front-rail.L']);
    expect(await plansAt(files(signed()))).toEqual([]);
  });

  it('not where nothing can be judged', async () => {
    const lone = job(
      measure('as received', off({ 'rail-tip-lower.L': [0, -8, 0] }), [control[0], 'rail-tip-lower.L']),
    );
    expect(
      await plansAt({ 'body.chassis.yaml': chassisWith(), [name]: before(lone, 'rail-tip-lower.L') }),
    ).toEqual([]);
  });
});

describe('what it writes', () => {
  const inserted = () => chosenAt(shop(before(text, 'tip-lower.L')), name, title);

  it('is one entry at the end of the timeline, and nothing else', async () => {
    const { added, gone } = difference(text, await inserted());
    expect(gone).toEqual([]);
    expect(added[0]).toMatch(/^ {2}- pull: /);
    expect(added.slice(1).every((line) => line.startsWith('    '))).toBe(true);
    expect(added.join('')).toContain('    part: front-rail.L\n');
    expect((await inserted()).endsWith(added.join(''))).toBe(true);
  });

  it('reads back without a problem and pulls the way that is needed', async () => {
    const analysis = await analysed(shop(await inserted()), name);
    const rules = analysis.findings.map(({ rule }) => rule);
    expect(rules.filter((rule) => /^(text|name)\//.test(rule))).toEqual([]);
    expect(rules).not.toContain('procedure/pull-against');
    expect(rules).not.toContain('procedure/no-hold');
    if (analysis.kind !== 'readings') throw new Error('a job');
    const pull = analysis.job.timeline.at(-1)!;
    if (pull.kind !== 'pull') throw new Error('a pull');
    expect(pull.part?.id).toBe('front-rail.L');
    // inboard it stands, outboard it goes
    for (const { hook, direction } of pull.chains) {
      expect(hook.id).toMatch(/^(tip|front)-.*\.L$/);
      expect(direction![1]).toBeGreaterThan(0.9 * Math.hypot(...direction!));
    }
    expect(pull.chains.length).toBeGreaterThan(0);
  });

  it('says what to hold, what to aim at, what to measure and what to beware of', async () => {
    const added = difference(text, await inserted()).added.join('');
    for (const words of [
      /hold/i,
      /aim/i,
      /read .* under load; after release/i,
      /maker's procedure/,
      /chain/i,
      /airbag/i,
      /high voltage/,
    ])
      expect(added).toMatch(words);
  });

  it('keeps the line ends of the file', async () => {
    const crlf = text.replaceAll('\n', '\r\n');
    const now = await chosenAt(shop(before(crlf, 'tip-lower.L')), name, title);
    expect(now.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(now.replaceAll('\r\n', '\n')).toBe(await inserted());
  });

  it('is not offered a second time before it is worked through', async () => {
    expect(await plansAt(shop(before(await inserted(), 'tip-lower.L')))).toEqual([]);
  });

  it('stands before what follows the timeline', async () => {
    const ordered = `${text.replace('scope: [front-rail]\n', '')}\n# at the end\nscope: [front-rail]\n`;
    const now = await chosenAt(shop(before(ordered, 'tip-lower.L')), name, title);
    expect(difference(ordered, now).gone).toEqual([]);
    expect(now.endsWith('\n\n# at the end\nscope: [front-rail]\n')).toBe(true);
  });
});

it('the twisted rail of the samples gets a couple against its twist', async () => {
  const path = 'jobs/w-1192-twisted-rail.readings.yaml';
  const files = sampleFiles(path);
  const asked = { ...files, [path]: before(files[path], 'measure: after second pull') };
  expect(await plansAt(asked, path)).toEqual([title]);
  const now = await chosenAt(asked, path, title);
  const analysis = await analysed({ ...files, [path]: now }, path);
  expect(analysis.findings.filter(({ rule }) => /^(text|name)\/|pull-against/.test(rule))).toEqual([]);
  if (analysis.kind !== 'readings') throw new Error('a job');
  const pull = analysis.job.timeline.at(-1)!;
  if (pull.kind !== 'pull') throw new Error('a pull');
  // the top leans inboard, the lower points are home: up there outboard, down there against it
  expect(pull.chains.map(({ hook, direction }) => [hook.id, Math.sign(direction![1])])).toEqual([
    ['rail-tip-upper.L', 1],
    ['rail-tip-lower.L', -1],
  ]);
});

it('is not offered for a part that has to be renewed', async () => {
  const path = 'jobs/w-1187-as-received.readings.yaml';
  const files = sampleFiles(path);
  const at = (job: string) => plansAt({ ...files, [path]: before(job, 'rail-tip-upper.L:') }, path);
  expect(await at(files[path])).toEqual([title]);
  const torn = `${files[path].trimEnd()}\n  - observe: tear\n    part: front-rail.L\n    at: 2500\n`;
  expect(await at(torn)).toEqual([]);
});

it('the pillar of the side impact gets no plan', async () => {
  const path = 'jobs/w-1201-side-impact.readings.yaml';
  const files = sampleFiles(path);
  const at = (piece: string) => plansAt({ ...files, [path]: before(files[path], piece) }, path);
  expect(await at('measure: new pillar in clamps')).toEqual([]);
  expect(await at('pillar-belt-front.L')).toEqual([]);
});
