// The files that the benchmark is run on are what it says they are.
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { analysed } from '../../server/src/findings/testing/analysed';
import { jobOf, outsideShare } from './generate';
import { jsonText, yamlText } from './job';

const jobName = 'w-3000.readings.yaml';

const analysisOf = async (readings: number, share: number) => {
  const { body, job, chassisName } = jobOf(readings, share);
  const files = { [chassisName]: body.chassis, [jobName]: yamlText(job) };
  const [chassis, analysis] = [await analysed(files, chassisName), await analysed(files, jobName)];
  if (analysis.kind !== 'readings') throw new Error('not a job');
  return { chassis, analysis, job };
};

describe.each([100, 600, 10_000])('%i readings', (readings) => {
  test('are so many, none of a sound car with a finding', async () => {
    const { chassis, analysis, job } = await analysisOf(readings, 0);
    const counted = job.timeline.map((entry) => Object.keys(entry.readings ?? {}).length);
    expect(counted.reduce((a, b) => a + b)).toBe(readings);
    expect(chassis.findings.map(({ message }) => message)).toEqual([]);
    expect(analysis.findings.map(({ message }) => message)).toEqual([]);
  });

  test('one in twenty of a car that was hit is out of tolerance, and judged so', async () => {
    const { analysis } = await analysisOf(readings, outsideShare);
    const outside = analysis.findings.filter(({ rule }) => rule === 'reading/outside');
    expect(outside).toHaveLength(readings * outsideShare);
    expect(analysis.findings.filter(({ rule }) => rule.startsWith('text/'))).toEqual([]);
  });
});

test('the same data stand in both texts', () => {
  const { job } = jobOf(600, outsideShare);
  expect(JSON.parse(jsonText(job))).toEqual(
    JSON.parse(JSON.stringify({ ...job.header, timeline: job.timeline })),
  );
  expect(parse(yamlText(job))).toEqual(JSON.parse(jsonText(job)));
});

test('the same text comes of the same wish', () => {
  expect(yamlText(jobOf(600, outsideShare).job)).toBe(yamlText(jobOf(600, outsideShare).job));
});
