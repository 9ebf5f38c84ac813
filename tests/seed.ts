import { configureGlobal } from 'fast-check';
import { staleTrees } from '../server/src/text/yaml/parse';

// Whoever still reads a tree after its text was edited is told so (server/src/memory/README.md).
staleTrees.throwWhenRead = true;

/**
 * Random tests try the same inputs in each run, so that a change is judged by what it changed. New inputs are tried
 * with FRAMEWRIGHT_SEED=random, or those of a run that failed with the seed that it printed.
 */
const chosen = process.env.FRAMEWRIGHT_SEED ?? '20261126';
if (chosen !== 'random') configureGlobal({ seed: Number(chosen) });
