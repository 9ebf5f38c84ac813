import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { parseArgs } from 'node:util';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { carsPrinted } from './cars/print';
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
 * `--hunt N` instead: N jobs on bodies that chance lays out; `--cars N`: reference points from cars, N trials a cell, and N repositories of
 * 40 jobs a cell whose scatter is measured.
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
    },
  });
  const [seed, every] = [Number(values.seed), Number(values.every)];
  if (!Number.isSafeInteger(seed) || !Number.isSafeInteger(every) || every < 1)
    throw new RangeError('--seed and --every take whole numbers.');
  if (values.hunt !== undefined) {
    const jobs = Number(values.hunt);
    if (!Number.isSafeInteger(jobs) || jobs < 1) throw new RangeError('--hunt takes a whole number.');
    process.stdout.write(`${huntPrinted(talliedHunt(Array(jobs).keys(), seed), jobs, seed)}\n`);
    return;
  }
  if (values.cars !== undefined) {
    const count = Number(values.cars);
    if (!Number.isSafeInteger(count) || count < 1) throw new RangeError('--cars takes a whole number.');
    const tally = new Tally();
    talliedReferences(tally, count, seed);
    talliedScatters(tally, count, seed);
    process.stdout.write(`${carsPrinted(tally)}\n`);
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
