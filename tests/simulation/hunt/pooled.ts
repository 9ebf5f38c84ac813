import { adviceGridSize, talliedAdvice } from '../frame/advised';
import { talliedFrames } from '../frame/count';
import { framePrinted } from '../frame/print';
import { frameGridSize } from '../frame/scenarios';
import { Tally } from '../tally';

/** The grid of bodies that are read once, of several seeds together, as Markdown: `node … SEED SEED …`. */
const upTo = (size: number): number[] => Array.from({ length: size }, (_, i) => i);

const seeds = process.argv.slice(2).map(Number);
const tally = new Tally();
for (const seed of seeds) {
  tally.merge(talliedFrames(upTo(frameGridSize), seed).entries());
  tally.merge(talliedAdvice(upTo(adviceGridSize), seed).entries());
  process.stderr.write(`seed ${seed} done\n`);
}
process.stdout.write(`Seeds ${seeds.join(', ')} pooled.\n\n${framePrinted(tally)}\n`);
