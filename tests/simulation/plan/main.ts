import { parseArgs } from 'node:util';
import { planPrinted, talliedPlans } from './run';

const { values } = parseArgs({
  options: { seed: { type: 'string', default: '1' }, jobs: { type: 'string', default: '200' } },
});
const [seed, jobs] = [Number(values.seed), Number(values.jobs)];
if (!Number.isSafeInteger(seed) || !Number.isSafeInteger(jobs) || jobs < 1)
  throw new RangeError('--seed and --jobs take whole numbers.');
const options = `${seed === 1 ? '' : ` --seed ${seed}`}${jobs === 200 ? '' : ` --jobs ${jobs}`}`;
const command = `npm run simulate:plan${options === '' ? '' : ` --${options}`}`;
process.stdout.write(`${planPrinted(talliedPlans(jobs, seed), command, jobs)}\n`);
