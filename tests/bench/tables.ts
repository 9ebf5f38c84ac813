import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { pastedRows } from '../../server/src/tables/editing/pasted-rows';
import { memoryFiles } from '../../server/src/workspace/testing/memory-files';
import { Workspace } from '../../server/src/workspace/workspace';
import { type Body, inventedBody } from './body';
import { commandLine } from './folders';
import { median } from './statistics';
import { wholeProcessMs } from './whole-process';

/** How long tables take to become rows. */
export interface TableTimes {
  readonly pastedRows: number;
  readonly pasteMs: readonly number[];
  readonly importedRows: number;
  readonly importMs: readonly number[];
}

const points = 500;
/** Every point twice: two readings of a point are repeats in one row. */
const pasted = 2 * points;
const imported = 100_000;

const job = `framewright: readings/1
chassis: ./body.chassis.yaml
order: W-3000
timeline:
  - measure: as received
    readings:
`;

/** Every point twice in a thousand rows, with decimal commas, as a program of an arm may write them. */
function tableText({ points: all }: Body, rows: number): string {
  const names = all.flatMap(({ name, reference }) =>
    (['L', 'R'] as const).map((side) => ({ name: `${name.replaceAll('-', ' ')} ${side}`, reference })),
  );
  const lines = Array.from({ length: rows }, (_, i) => {
    const { name, reference } = names[i % names.length];
    const numbers = reference.map((each) => (each + (i % 7) / 10).toFixed(1).replace('.', ','));
    return [name, ...numbers].join(';');
  });
  return ['Name;X;Y;Z', ...lines, ''].join('\n');
}

export async function tableTimes(folder: string, quick: boolean): Promise<TableTimes> {
  const body = inventedBody(points);
  return {
    pastedRows: pasted,
    pasteMs: await pasteTimes(body, quick ? 5 : 30),
    importedRows: imported,
    importMs: await importTimes(folder, body, quick ? 2 : 5),
  };
}

/** From what the clipboard holds to the edit; the job was read before, as while it stands in an editor. */
async function pasteTimes(body: Body, turns: number): Promise<number[]> {
  const uri = 'file:///shop/w-3000.readings.yaml';
  const text = `${job}      \n`;
  const files = memoryFiles({ 'file:///shop/body.chassis.yaml': body.chassis }, 'file:///shop/');
  const workspace = new Workspace(files);
  workspace.setOpen(uri, text, 'readings');
  const analysis = await workspace.analysis(uri);
  if (!('findings' in analysis)) throw new Error(analysis.message);
  const table = tableText(body, pasted);
  const place = { start: text.length - 1, end: text.length - 1 };
  return Array.from({ length: turns }, () => {
    const start = performance.now();
    const made = pastedRows(analysis, place, table);
    const milliseconds = performance.now() - start;
    if (made?.kind !== 'rows' || made.rows !== points || made.left > 0) throw new Error('not every row came');
    return milliseconds;
  });
}

/** The whole command, from its start to its end. */
async function importTimes(folder: string, body: Body, turns: number): Promise<number[]> {
  mkdirSync(folder, { recursive: true });
  const at = (name: string): string => path.join(folder, name);
  writeFileSync(at('body.chassis.yaml'), body.chassis);
  writeFileSync(at('arm.csv'), tableText(body, imported));
  const times: number[] = [];
  for (let turn = 0; turn < turns; turn++) {
    writeFileSync(at('w-3000.readings.yaml'), job);
    const args = [commandLine, 'import', at('arm.csv'), '--into', at('w-3000.readings.yaml')];
    times.push(await wholeProcessMs(args, at('printed.txt'), /w-3000\.readings\.yaml: written/));
  }
  return times;
}

/** Tables for the printed benchmark. */
export const tableParts = (
  { pastedRows: few, pasteMs, importedRows, importMs }: TableTimes,
  table: (head: readonly string[], rows: readonly (readonly string[])[]) => string,
): string[] => [
  table(
    ['tables', 'median, ms'],
    [
      [`${few.toLocaleString('en-GB')} rows pasted become rows`, median(pasteMs).toFixed(1)],
      [`${importedRows.toLocaleString('en-GB')} rows imported by a command`, median(importMs).toFixed(0)],
    ],
  ),
];
