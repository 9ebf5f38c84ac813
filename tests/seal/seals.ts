import { expect } from 'vitest';
import { stringify } from 'yaml';
import { analysed } from '../../server/src/findings/testing/analysed';
import { sealsOf as sealsOfProduct } from '../../server/src/inspection/gate/seal';
import { sealsOf } from './seal.mjs';

export interface Files {
  readonly parent: unknown;
  readonly body: unknown;
  readonly job: unknown;
}

/** Both seals of a job, as the product and the script beside this file make them; they agree. */
export async function sealsBoth(files: Files, rule: 'simple' | 'guarded' = 'simple') {
  const text = (value: unknown) => (typeof value === 'string' ? value : stringify(value));
  const [parent, body, job] = [files.parent, files.body, files.job].map(text);
  const all = { 'base.chassis.yaml': parent, 'body.chassis.yaml': body, 'job.readings.yaml': job };
  const analysis = await analysed(all, 'job.readings.yaml');
  if (analysis.kind !== 'readings' || !analysis.chassis || !analysis.job.signOff) throw new Error('no job');
  const seals = sealsOfProduct(analysis.job, analysis.chassis, analysis.job.signOff, rule);
  expect(sealsOf(job, [body, parent], rule)).toEqual(seals);
  const unread = analysis.findings
    .filter((each) => each.rule.startsWith('text/'))
    .map((each) => each.message);
  return { seals, unread };
}
