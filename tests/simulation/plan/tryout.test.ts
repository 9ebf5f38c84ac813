import { it } from 'vitest';
import { Tally } from '../tally';
import { planJob } from './job';
import { judgePlan } from './judged';

it('tries', () => {
  const tally = new Tally(),
    kinds = new Map<string, Tally>();
  const n = Number(process.env.N ?? 200),
    seed = Number(process.env.SEED ?? 1);
  for (let i = 0; i < n; i++) {
    const job = planJob(seed, i);
    const own = new Tally();
    judgePlan(job, own);
    tally.merge(own.entries());
    const k = kinds.get(job.damage.kind) ?? new Tally();
    k.merge(own.entries());
    kinds.set(job.damage.kind, k);
  }
  console.log(tally.entries());
  for (const [k, t] of kinds)
    console.log(
      k,
      t
        .entries()
        .filter(([n]) => !/planned|sound/.test(n))
        .map(([a, [h, o]]) => `${a} ${h}/${o}`)
        .join('; '),
    );
});
