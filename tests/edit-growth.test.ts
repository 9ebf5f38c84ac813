import { expect, test } from 'vitest';
import { memoryFiles } from '../server/src/workspace/testing/memory-files';
import { Workspace } from '../server/src/workspace/workspace';
import { inventedBody } from './bench/body';
import { editKinds, editsOf } from './bench/edits';
import { inventedJob, yamlText } from './bench/job';
import { spliced } from './bench/splice';

/**
 * A rule that compares every measure with every other one is not seen in a small file and takes most of a second at each key in a large
 * one. Twice the measures may take twice the time; four times would be such a rule.
 */
const most = 3;
/** So many that what grows with their square outweighs what is done once. */
const measures = 30;
const points = 60;
const editsOfAKind = 4;

const uri = 'file:///shop/w.readings.yaml';
const body = inventedBody(points);
const idsWhere = (isControl: boolean): string[] =>
  body.points
    .filter((each) => each.isControl === isControl)
    .flatMap(({ name }) => [`${name}.L`, `${name}.R`]);
const ids = { judged: idsWhere(false), control: idsWhere(true) };

/** CPU time of edits of a job of so many measures, ms. */
async function editsTake(count: number): Promise<number> {
  const wanted = { measures: count, outsideShare: 0.05, chassisPath: './a.chassis.yaml', seed: 1 };
  let text = yamlText(inventedJob(body, wanted));
  const workspace = new Workspace(memoryFiles({ 'file:///shop/a.chassis.yaml': body.chassis }));
  const judge = async (): Promise<void> => {
    workspace.setOpen(uri, text);
    const analysis = await workspace.analysis(uri);
    expect('findings' in analysis && analysis.findings.length).toBeGreaterThan(0);
  };
  await judge();
  const before = process.cpuUsage();
  for (const [seed, kind] of editKinds.entries()) {
    const chosen = editsOf(kind, 'yaml', ids, seed + 1);
    for (let i = 0; i < editsOfAKind; i++) {
      text = spliced(text, chosen(text));
      await judge();
    }
  }
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

test('twice the measures take about twice the time at each edit', async () => {
  // the first ones pay for translating the program
  for (let i = 0; i < 3; i++) await editsTake(measures);
  const rounds: [small: number, large: number][] = [];
  for (let i = 0; i < 5; i++) rounds.push([await editsTake(measures), await editsTake(2 * measures)]);
  const best = (size: 0 | 1) => Math.min(...rounds.map((round) => round[size]));
  expect(best(1) / best(0)).toBeLessThan(most);
}, 120_000);
