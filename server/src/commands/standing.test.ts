import { describe, expect, it } from 'vitest';
import { signOffActions } from '../editor/actions/sign-off-actions';
import { orderHover } from '../editor/hover/hover-stage';
import { fileEntry } from '../editor/show/jobs';
import { signed, signedJob } from '../findings/testing/sign-off';
import { recordedJob, recordOf } from '../report/sample.fixture';
import { bentFrom, chassisWith, job, measure, off, sound } from '../testing/body';
import { check } from './check';
import { failsCheck } from './exit';
import { jobJson } from './formats/inspect-json';
import { recorded, sampleTexts, shopOf, target } from './recorded.fixture';

/** Nobody may be told two things of one job: summary, record, lists, hover, light bulb, `inspect` and exit status. */

const path = 'job.readings.yaml';
const filesOf = (text: string, settings = ''): Record<string, string> => ({
  'body.chassis.yaml': chassisWith(),
  [path]: text,
  '.framewright.yaml': `framewright: settings/1\n${settings}`,
});

async function toldOf(files: Record<string, string>, at = path) {
  const analysis = await recordedJob(files, at);
  const options = { open: true, summaries: false, verbose: false, coloured: false };
  const { code, printed } = await recorded((output) => check(shopOf(files), [target(at)], options, output));
  const whole = { ...analysis, kind: 'readings' as const } as Parameters<typeof jobJson>[0];
  const range = { start: 0, end: analysis.text.length };
  const entry = fileEntry(whole);
  return {
    closed: analysis.job.signOff !== null,
    /** Of the file as it stands, an open job's errors counted. */
    fails: code !== 0,
    errors: analysis.findings.filter((each) => each.severity === 'error' && each.ignored === null).length,
    failsCheck: failsCheck(whole, true),
    passes: jobJson(whole, at).signOff?.passes === true,
    stands: /sign-off: stands|nothing remains: the dimensions may be signed off/.test(printed),
    state: entry?.kind === 'job' ? entry.state : null,
    hover: /is signed off(?!, but)|Nothing remains/.test(orderHover(analysis)),
    record: /the sign-off stands|Nothing stands against signing off/.test(await recordOf(files, at)),
    offered: signOffActions(whole, range, { today: '2026-03-05', shows: new Set() }).some(({ title }) =>
      title.startsWith('Sign off'),
    ),
  };
}

const finished = (mm: number) => measure('finished', off({ 'rail-root-lower.L': [0, mm, 0] }));
const withSpan = (text: string, mm: number) =>
  text.replace('    readings:', `    spans: [[rail-root-lower.L, rail-root-lower.R, ${mm}]]\n    readings:`);

const jobs: Record<string, string> = {
  sound: signedJob(finished(0)),
  'sound, open': job(finished(0), 'scope: [front-rail.L, centre-pillar]\n'),
  'a point outside': signedJob(finished(8)),
  'a point outside its scope outside': signedJob(measure('finished', off({ 'sill-front.L': [0, 0, 9] }))),
  'a point outside its scope outside, open': job(
    measure('finished', off({ 'sill-front.L': [0, 0, 9] })),
    'scope: [front-rail.L, centre-pillar]\n',
  ),
  'a distance outside': signedJob(withSpan(finished(0), 891)),
  'a distance that may be outside': signedJob(withSpan(finished(0), 885.1)),
  'a distance that may be outside, open': job(withSpan(finished(0), 885.1), 'scope: [front-rail.L]\n'),
  'a distance that may be outside, and is inside': signedJob(withSpan(finished(0), 884.9)),
  'a mistyped key': signedJob(finished(0)).replace('by: rk', 'byy: rk'),
  'a mistyped key, open': job(
    finished(0).replace('    readings:', '    nte: a\n    readings:'),
    'scope: [front-rail.L]\n',
  ),
  'a detail that cannot be read': job(
    `${measure('received', bentFrom(2200))}\n  - pull: out\n    part: front-rail.L\n    hold: { part: front-rail.L }\n  - release: all\n${finished(0)}`,
    'scope: [front-rail.L]\n',
    signed(),
  ),
  'an unknown point': signedJob(`${finished(0)}\n      rial-1.L: [1, 2, 3]`),
  'text that breaks off': signedJob(`${finished(0)}\n      rail-9.L: [1, 2`),
  'an earlier stage in a mirror': signedJob(
    `${measure('received', sound).replace(/\[(-?[\d.]+), (-?[\d.]+), /g, (_, x, y) => `[${x}, ${-y}, `)}\n${finished(0)}`,
  ),
  'nothing measured': signedJob('  - note: waiting'),
};

describe('how a job stands', () => {
  for (const [what, text] of Object.entries(jobs))
    it(`is told alike everywhere: ${what}`, async () => {
      const told = await toldOf(filesOf(text));
      const { closed, passes } = told;
      expect(told).toMatchObject({ stands: passes, hover: passes, record: passes });
      expect(told.state === 'signed' || told.state === 'ready').toBe(passes);
      expect(told.failsCheck).toBe(told.fails);
      if (closed) expect(told.fails).toBe(!passes);
      if (told.errors > 0) expect(passes).toBe(false);
      if (!closed && !passes) expect(told.offered).toBe(false);
    });

  it('is told alike of every sample', async () => {
    const paths = Object.keys(sampleTexts).filter((each) => each.startsWith('jobs/'));
    expect(paths.length).toBeGreaterThan(5);
    for (const at of paths) {
      const { closed, passes, fails, stands, hover, record } = await toldOf(sampleTexts, at);
      expect([at, stands, hover, record]).toEqual([at, passes, passes, passes]);
      if (closed) expect([at, fails]).toEqual([at, !passes]);
    }
  }, 60_000);

  it('passes with what the gate lets pass, and with an error that is ignored with a reason', async () => {
    expect((await toldOf(filesOf(jobs.sound))).passes).toBe(true);
    expect((await toldOf(filesOf(jobs['sound, open']))).offered).toBe(true);
    expect((await toldOf(filesOf(jobs['a distance that may be outside, and is inside']))).passes).toBe(true);
    const ignored = jobs['a point outside its scope outside'].replace(
      '      sill-front.L',
      '      # framewright-ignore reading/outside: a bent flange, no structure\n      sill-front.L',
    );
    expect((await toldOf(filesOf(ignored))).passes).toBe(true);
    expect((await toldOf(filesOf(jobs['a point outside its scope outside']))).passes).toBe(false);
  });

  it('names the errors that stand against it, each once', async () => {
    const remaining = async (text: string) => {
      const analysis = await recordedJob(filesOf(text), path);
      return jobJson({ ...analysis, kind: 'readings' } as Parameters<typeof jobJson>[0], path).signOff
        ?.remaining;
    };
    expect(await remaining(jobs['a point outside'])).toEqual(['rail-root-lower.L: outside']);
    expect(await remaining(jobs['a point outside its scope outside'])).toEqual(['reading/outside: 1 error']);
    expect(await remaining(jobs['a distance outside'])).toEqual([
      'rail-root-lower.L to rail-root-lower.R: distance outside',
    ]);
    expect(await remaining(jobs['a distance that may be outside'])).toEqual([
      'rail-root-lower.L to rail-root-lower.R: distance undecided',
    ]);
    expect(await remaining(jobs['a distance that may be outside, open'])).toEqual([
      'rail-root-lower.L to rail-root-lower.R: distance undecided',
    ]);
  });
});
