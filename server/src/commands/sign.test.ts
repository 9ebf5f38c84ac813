import { describe, expect, it } from 'vitest';
import { sealsOf } from '../../../tests/seal/seal.mjs';
import { analysed } from '../findings/testing/analysed';
import { filesOf, signed } from '../findings/testing/sign-off';
import { bentFrom, chassisWith, job, measure, off } from '../testing/body';
import { memoryFiles } from '../workspace/testing/memory-files';
import { sign } from './sign';

const folder = 'file:///shop/';
const path = 'job.readings.yaml';
const head = 'scope: [front-rail.L, centre-pillar]\n';
const open = job(measure('finished'), head);

async function signing(text: string, { again = false, rule = 'simple', by = 'rk' } = {}) {
  const files = filesOf(text, rule);
  const texts = Object.fromEntries(Object.entries(files).map(([name, each]) => [folder + name, each]));
  const said: string[] = [];
  let written: string | null = null;
  const code = await sign(
    memoryFiles(texts, folder),
    { uri: folder + path, path },
    {
      print: (line) => said.push(line),
      complain: (line) => said.push(line),
      by,
      date: '2026-03-06',
      again,
      write: (now) => {
        written = now;
        return null;
      },
    },
  );
  return { code, said: said.join('\n'), written: written as string | null };
}

describe('framewright sign', () => {
  it('writes who, when, both seals and the version, and the job stands', async () => {
    const { code, said, written } = await signing(open);
    const seals = sealsOf(written ?? '', [chassisWith()]);
    expect(written).toBe(
      `${open.trimEnd()}\nsign-off:\n  by: rk\n  date: 2026-03-06\n  readings: ${seals.readings}\n  chassis: ${seals.chassis}\n  judged-by: 0.2\n`,
    );
    expect(code).toBe(0);
    expect(said).toMatch(/signed by rk, 2026-03-06.*dimensions only/);
    const { findings } = await analysed(filesOf(written ?? ''), path);
    expect(findings.filter(({ rule, severity }) => /^sign-off/.test(rule) || severity === 'error')).toEqual(
      [],
    );
  });

  it('keeps a name that YAML would read otherwise, and the line ends', async () => {
    const { written } = await signing(open.replaceAll('\n', '\r\n'), { by: 'rk: "the #1"' });
    expect(written?.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(written).toContain('by: "rk: \\"the #1\\""');
  });

  it.each([
    ['a point outside', job(measure('finished', bentFrom(2400)), head), /outside/],
    [
      'under tension',
      job(`${measure('finished')}\n  - pull: out\n    part: front-rail.L`, head),
      /under tension/,
    ],
    [
      'undecided beyond its limit',
      job(measure('finished', off({ 'rail-root-lower.L': [0, 3.1, 0] })), head),
      /undecided/,
    ],
  ])('refuses with %s, and writes nothing', async (_, text, why) => {
    const { code, said, written } = await signing(text);
    expect({ code, written }).toEqual({ code: 1, written: null });
    expect(said).toMatch(why);
  });

  it('refuses what cannot be judged', async () => {
    expect(await signing(job(`${measure('finished')}\n  - note: [open`, head))).toMatchObject({
      code: 2,
      written: null,
    });
    expect(await signing(open.replace('body.chassis', 'other.chassis'))).toMatchObject({
      code: 2,
      written: null,
    });
  });

  it('never signs over an old signature unless asked to, and keeps it then', async () => {
    const old = job(
      measure('finished'),
      head,
      signed('', '  accepted: [{ point: rail-second-lower.L, reason: "hit: by the jack" }]\n'),
    );
    const refused = await signing(old);
    expect(refused).toMatchObject({ code: 1, written: null });
    expect(refused.said).toContain('--again');
    const { code, written } = await signing(old, { again: true });
    expect(code).toBe(0);
    expect(written).toContain(
      '  accepted:\n    - { point: "rail-second-lower.L", reason: "hit: by the jack" }\n',
    );
    expect(written).toMatch(
      / {2}earlier:\n {4}- \{ by: "rk", date: "2026-03-05", chassis: "sha256-\w+", judged-by: 0\.2, accepted: \[/,
    );
    const remarked = old.replace(
      '  by: rk\n',
      '  # by phone\n  by: rk   # framewright-ignore sign-off/no-scope: x-ray\n',
    );
    const first = (await signing(remarked, { again: true })).written ?? '';
    const kept =
      / {2}earlier:\n {4}# by phone\n {4}# was: framewright-ignore sign-off\/no-scope: x-ray\n {4}- \{ by: "rk"/;
    expect(first).toMatch(kept);
    const second = first
      .replace(/(\n {4}- \{ by: "rk".*)/, '$1   # the first')
      .replace('by: rk\n', 'by: rk   # the second\n');
    expect((await signing(second, { again: true })).written).toMatch(
      /earlier:\n {4}# by phone\n.*\n {4}# the first\n {4}- \{ by.*\n {4}# the second\n {4}- \{ by/,
    );
    const twice = await signing(written ?? '', { again: true, by: 'jm' });
    expect(twice.written?.match(/ {4}- \{ by: "rk"/g)).toHaveLength(2);
    const { findings } = await analysed(filesOf(twice.written ?? ''), path);
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});
