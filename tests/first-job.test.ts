// What the walkthrough leads through: the example chassis, a new job of it, some rows typed, all rows typed.
import { expect, test } from 'vitest';
import { exampleChassis, exampleChassisPath, exampleReadingEdits } from '../client/src/example';
import { jobFolderOf, newJobText, pathFrom } from '../client/src/jobs/new-job';
import { analysed } from '../server/src/findings/testing/analysed';

const jobPath = `${jobFolderOf(exampleChassisPath)}/w-2041.readings.yaml`;

const judged = async (text: string) => {
  const analysis = await analysed({ [exampleChassisPath]: exampleChassis, [jobPath]: text }, jobPath);
  if (analysis.kind !== 'readings') throw new Error('no job');
  return analysis;
};

const pointIds = async (): Promise<string[]> => {
  const analysis = await analysed({ [exampleChassisPath]: exampleChassis }, exampleChassisPath);
  if (analysis.kind !== 'chassis') throw new Error('no chassis');
  expect(analysis.findings).toEqual([]);
  return [...analysis.chassis.points.keys()];
};

const newJob = async (): Promise<string> =>
  newJobText({
    order: 'W-2041',
    chassisPath: pathFrom(jobFolderOf(exampleChassisPath), exampleChassisPath),
    pointIds: await pointIds(),
    today: '2026-03-02',
  });

const rulesOf = (findings: readonly { rule: string }[]): string[] => findings.map(({ rule }) => rule);

/** All example readings that are wanted, typed into a new job. */
const typed = (text: string, wanted: RegExp): string => {
  const lines = text.split('\n');
  for (const edit of exampleReadingEdits(lines)) if (wanted.test(edit.text)) lines[edit.line] = edit.text;
  return lines.join('\n');
};

test('a new job is no mistake: it says only what is still missing', async () => {
  const { findings } = await judged(await newJob());
  expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
});

test('into the rows of a real body nothing invented is typed', async () => {
  const ids = ['floor-front.L', 'rail-tip-upper.L'];
  const text = newJobText({
    order: 'W-1',
    chassisPath: '../specs/teal.chassis.yaml',
    pointIds: ids,
    today: '2026-03-02',
  });
  expect(exampleReadingEdits(text.split('\n'))).toEqual([]);
});

test('a job half typed has no errors of the text either', async () => {
  const { findings } = await judged(typed(await newJob(), /technician|instrument|floor|tunnel/));
  expect(rulesOf(findings).filter((rule) => /^(text|name)\//.test(rule))).toEqual([]);
});

test('with all readings typed the bent rail is found, and nothing else is out', async () => {
  const text = typed(await newJob(), /./);
  expect(text).not.toContain('[ , , ]');
  const { findings } = await judged(text);
  const outside = findings.filter(({ rule }) => rule === 'reading/outside');
  expect(outside.map(({ range }) => text.slice(range.start, range.end))).toEqual([
    'rail-middle-upper.L',
    'rail-tip-lower.L',
    'rail-tip-upper.L',
  ]);
  expect(rulesOf(findings)).not.toContain('base/weak');
});

test('rows that were typed already are left alone', async () => {
  const lines = (await newJob()).split('\n');
  const k = lines.findIndex((line) => line.includes('# floor-front.L:'));
  lines[k] = '      floor-front.L: [1, 2, 3]';
  expect(exampleReadingEdits(lines).map(({ line }) => line)).not.toContain(k);
});
