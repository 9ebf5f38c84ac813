import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { parseArgs } from 'node:util';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { carsPrinted, scattersPrinted } from './cars/print';
import { talliedReferences } from './cars/references';
import { talliedScatters } from './cars/scatters';
import { adviceGridSize, talliedAdvice } from './frame/advised';
import { talliedFrames } from './frame/count';
import { frameGridSize } from './frame/scenarios';
import { gridSize } from './grid';
import { huntPrinted, talliedHunt } from './hunt/print';
import { printed, summary } from './print';
import { tallied, talliedBends } from './run';
import { Tally } from './tally';

/**
 * `npm run simulate`: the whole grid, its counts as Markdown on standard output.
 * `-- --seed N` another seed, `--every N` each Nth job only; `--results FILE` and `--summary FILE` also put all of
 * it, or what says most, between that file's `<!-- simulation -->` and `<!-- /simulation -->`.
 * `--hunt N` instead: N jobs on bodies that chance lays out; `--cars N`: reference points from cars, N trials a cell; `--scatters N`: N
 * repositories of 40 jobs a cell whose scatter is measured, in about 2 s each.
 */

/** Where all of it is kept. */
const resultsFile = 'tests/simulation/results.md';

interface Share {
  readonly seed: number;
  readonly cells: readonly number[];
  /** Of the bodies that are read once. */
  readonly frames: readonly number[];
  /** Of the bodies that are read as advised. */
  readonly advice: readonly number[];
}

function inThread(share: Share): Promise<[string, [number, number]][]> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(process.argv[1], { workerData: share });
    worker.once('message', resolve);
    worker.once('error', reject);
  });
}

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      seed: { type: 'string', default: '1' },
      every: { type: 'string', default: '1' },
      results: { type: 'string' },
      summary: { type: 'string' },
      hunt: { type: 'string' },
      cars: { type: 'string' },
      scatters: { type: 'string' },
    },
  });
  const [seed, every] = [Number(values.seed), Number(values.every)];
  if (!Number.isSafeInteger(seed) || !Number.isSafeInteger(every) || every < 1)
    throw new RangeError('--seed and --every take whole numbers.');
  const instead = insteadPrinted(values, seed);
  if (instead !== null) {
    process.stdout.write(`${instead}\n`);
    return;
  }
  const eachOf = (size: number) => Array.from({ length: Math.ceil(size / every) }, (_, i) => i * every);
  const [cells, frames, advice] = [gridSize, frameGridSize, adviceGridSize].map(eachOf);
  const threads = Math.min(cells.length, availableParallelism());
  const shares = Array.from({ length: threads }, (_, thread) => ({
    seed,
    cells: cells.filter((_, i) => i % threads === thread),
    frames: frames.filter((_, i) => i % threads === thread),
    advice: advice.filter((_, i) => i % threads === thread),
  }));
  const tally = new Tally();
  for (const entries of await Promise.all(shares.map(inThread))) tally.merge(entries);
  const options = `${seed === 1 ? '' : ` --seed ${seed}`}${every === 1 ? '' : ` --every ${every}`}`;
  const command = `npm run simulate${options === '' ? '' : ` --${options}`}`;
  const text = printed(tally, command, cells.length, seed);
  process.stdout.write(`${text}\n`);
  if (values.results !== undefined) writeInto(values.results, text);
  if (values.summary !== undefined)
    writeInto(values.summary, summary(tally, command, cells.length, seed, resultsFile));
}

/** What is asked for in the place of the grid; null: the grid. */
function insteadPrinted(
  values: { readonly hunt?: string; readonly cars?: string; readonly scatters?: string },
  seed: number,
): string | null {
  const counted = (option: string, value: string): number => {
    const count = Number(value);
    if (!Number.isSafeInteger(count) || count < 1) throw new RangeError(`--${option} takes a whole number.`);
    return count;
  };
  const tally = new Tally();
  if (values.hunt !== undefined) {
    const jobs = counted('hunt', values.hunt);
    return huntPrinted(talliedHunt(Array(jobs).keys(), seed), jobs, seed);
  }
  if (values.cars !== undefined) {
    talliedReferences(tally, counted('cars', values.cars), seed);
    return carsPrinted(tally);
  }
  if (values.scatters === undefined) return null;
  talliedScatters(tally, counted('scatters', values.scatters), seed);
  return `Seed ${seed}.\n\n${scattersPrinted(tally)}`;
}

const [begin, end] = ['<!-- simulation -->', '<!-- /simulation -->'];

/** Replaces what stands between the two marks; a file that is not there yet is made. */
function writeInto(file: string, text: string): void {
  const block = `${begin}\n${text}\n${end}`;
  const known = existsSync(file) ? readFileSync(file, 'utf8') : `${begin}\n${end}\n`;
  const [from, to] = [known.indexOf(begin), known.indexOf(end)];
  if (from < 0 || to < from) throw new Error(`${file} has no ${begin} … ${end} to write between.`);
  writeFileSync(file, known.slice(0, from) + block + known.slice(to + end.length));
}

if (isMainThread) void main();
else {
  const { cells, frames, advice, seed } = workerData as Share;
  const tally = tallied(cells, seed);
  tally.merge(talliedBends(cells, seed).entries());
  tally.merge(talliedFrames(frames, seed).entries());
  tally.merge(talliedAdvice(advice, seed).entries());
  parentPort?.postMessage(tally.entries());
}
