import { configureGlobal } from 'fast-check';

/**
 * Random tests try the same inputs in each run, so that a change is judged by what it changed. New inputs are tried
 * with FRAMEWRIGHT_SEED=random, or those of a run that failed with the seed that it printed.
 */
const chosen = process.env.FRAMEWRIGHT_SEED ?? '20261126';
if (chosen !== 'random') configureGlobal({ seed: Number(chosen) });
