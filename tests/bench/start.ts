import path from 'node:path';
import { commandLine } from './folders';
import { writeShop } from './generate';
import { yamlText } from './job';
import { wholeProcessMs } from './whole-process';

export interface StartTimes {
  readonly readings: number;
  readonly checkMs: readonly number[];
  readonly nodeMs: readonly number[];
}

/** `check` on one small job, and Node doing nothing, turn by turn. */
export async function startTimes(folder: string, quick: boolean): Promise<StartTimes> {
  const readings = 100;
  const shop = writeShop(folder, { bodies: 1, folders: 1, jobsInEach: 1, readings }, yamlText);
  const output = path.join(folder, 'printed.txt');
  const checkMs: number[] = [];
  const nodeMs: number[] = [];
  const turns = quick ? 15 : 31;
  // the first of each reads the programs from the disk
  for (let turn = -1; turn < turns; turn++) {
    const check = await wholeProcessMs(
      [commandLine, 'check', '--no-cache', shop.jobs[0]],
      output,
      /^1 file:/m,
    );
    const node = await wholeProcessMs(['-e', '0'], output, /^$/);
    if (turn < 0) continue;
    checkMs.push(check);
    nodeMs.push(node);
  }
  return { readings, checkMs, nodeMs };
}
