import { parseArgs } from 'node:util';
import { planPrinted, talliedPlans } from './run';

const { values } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    jobs: { type: 'string', default: '200' },
    joined: { type: 'boolean', default: false },
  },
});
const [seed, jobs] = [Number(values.seed), Number(values.jobs)];
if (!Number.isSafeInteger(seed) || !Number.isSafeInteger(jobs) || jobs < 1)
  throw new RangeError('--seed and --jobs take whole numbers.');
const options = `${seed === 1 ? '' : ` --seed ${seed}`}${jobs === 200 ? '' : ` --jobs ${jobs}`}${values.joined ? ' --joined' : ''}`;
const command = `npm run simulate:plan${options === '' ? '' : ` --${options}`}`;
process.stdout.write(
  `${planPrinted(talliedPlans(jobs, seed, values.joined ? 'joined' : 'apart'), command, jobs)}\n`,
);
