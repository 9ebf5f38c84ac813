import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';
import { analysed } from '../../server/src/findings/testing/analysed';
import { canonicalJson } from '../../server/src/inspection/gate/canonical';
import { sealedChassis } from '../../server/src/inspection/gate/seal-chassis';
import { sealedReadings } from '../../server/src/inspection/gate/seal-readings';
import { sealedTexts, sealsOf } from './seal.mjs';

const page = readFileSync(new URL('../../schemas/reading-without-the-program.md', import.meta.url), 'utf8');
const chassis = /```yaml marten.chassis.yaml\n([\s\S]*?)```/.exec(page)?.[1] ?? '';
const worked = [
  ...page.matchAll(
    /```yaml job (simple|guarded)\n([\s\S]*?)```[\s\S]*?```json\n(.*)\n```[\s\S]*?```json\n(.*)\n```/g,
  ),
].map(([, rule, text, readings, body]) => ({ rule, text, texts: { readings, chassis: body } }));

it('shows three worked files', () => expect(worked).toHaveLength(3));

it.each(worked)(
  'the worked file under $rule has the texts and seals that the page shows',
  async ({ rule, text, texts }) => {
    const files = { 'marten.chassis.yaml': chassis, 'job.readings.yaml': text };
    const analysis = await analysed(files, 'job.readings.yaml');
    if (analysis.kind !== 'readings' || !analysis.chassis || !analysis.job.signOff) throw new Error('no job');
    const { job } = analysis;
    const content = sealedReadings(
      job,
      analysis.chassis,
      analysis.job.signOff,
      rule === 'guarded' ? rule : 'simple',
    );
    expect(canonicalJson(content)).toBe(texts.readings);
    expect(canonicalJson(sealedChassis(job, analysis.chassis))).toBe(texts.chassis);
    expect(sealedTexts(text, [chassis], rule)).toEqual(texts);
    expect({ readings: job.signOff?.readings, chassis: job.signOff?.chassis }).toEqual(
      sealsOf(text, [chassis], rule),
    );
    expect(analysis.findings.filter((each) => /^(text|name)\//.test(each.rule))).toEqual([]);
  },
);

it('shows lines of JavaScript that make those seals of those texts', async () => {
  const script = /```js\n([\s\S]*?)```/.exec(page)?.[1] ?? '';
  expect(script.split('\n').length).toBeLessThan(40);
  const folder = mkdtempSync(join(tmpdir(), 'seal-'));
  try {
    const path = join(folder, 'shown.mjs');
    writeFileSync(path, `${script}\nexport { seal };\n`);
    const { seal } = await import(pathToFileURL(path).href);
    for (const { text, texts } of worked)
      for (const content of Object.values(texts)) expect(text).toContain(seal(JSON.parse(content)));
  } finally {
    rmSync(folder, { recursive: true });
  }
});
