import { huntJob } from './job';
import { judgedHunt } from './judged';

/** One line of JSON for each job of the hunt: `node … SEED COUNT`. `node … SEED INDEX text` prints the texts of one. */
const [seed, count] = process.argv.slice(2, 4).map(Number);
if (process.argv[4] === 'text') {
  const { chassis, readings, traits, truth } = huntJob(seed, count);
  process.stdout.write(
    `${chassis}\n---\nframewright: readings/1\nchassis: hunt.chassis.yaml\n${readings}\n${JSON.stringify(traits)}\n${JSON.stringify([...truth])}\n`,
  );
} else
  for (let index = 0; index < count; index++) {
    const job = huntJob(seed, index);
    process.stdout.write(`${JSON.stringify({ index, ...job.traits, ...judgedHunt(job) })}\n`);
  }
