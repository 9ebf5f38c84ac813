import { table } from '../table';
import { Tally } from '../tally';
import { planJob } from './job';
import { judgePlan } from './judged';

/** Jobs 0, 1, 2 …, all kinds of damage in turn. */
export function talliedPlans(jobs: number, seed: number, seams: 'apart' | 'joined' = 'apart'): Tally {
  const tally = new Tally();
  for (let index = 0; index < jobs; index++) judgePlan(planJob(seed, index, seams), tally);
  return tally;
}

const requirements: readonly (readonly [what: string, key: string, asked: string])[] = [
  ['chains within 15° of the way home, where 6 mm or more are left', 'direction', '100 %'],
  [
    'the same against the point itself, with the scatter that it was built with',
    'direction, with scatter',
    '',
  ],
  ['words of the pull that do not point towards the damage', 'words', '100 %'],
  ['couples that turn a twist back', 'couple', '100 %'],
  ['holds with all metal that is over its limit on the other side', 'hold away from damage', '100 %'],
  ['holds on the base’s side of where the bend truly begins', 'hold on the base’s side', '100 %'],
  ['parts within tolerance that get a step', 'step for a sound part', '≤ 5 %'],
  ['parts that one motion moved, all in one step', 'one motion in one step', '≥ 95 %'],
  [
    'parts side by side whose motions differ by over 4 u, taken for one body',
    'other motions joined',
    '≤ 5 %',
  ],
  ['the same, in one step each its own way since they go alike at their seam', 'one step for a seam', ''],
];

export const planPrinted = (tally: Tally, command: string, jobs: number): string =>
  `\`${command}\`: ${jobs} jobs.\n\n${table(
    ['', 'asked', 'reached', 'of'],
    requirements.map(([what, key, asked]) => {
      const { hits, of } = tally.of(key);
      return [what, asked, of === 0 ? '–' : `${((100 * hits) / of).toFixed(1)} %`, String(of)];
    }),
  )}`;
