import { percent, table, title } from '../table';
import { Tally } from '../tally';
import { damages } from './damage';
import { type HuntJob, huntJob } from './job';
import { isConfidentlyWrong, type Judged, judgedHunt } from './judged';

/** The hunt, counted: bodies that chance lays out, by what happened to them. */

export function talliedHunt(indices: Iterable<number>, seed: number): Tally {
  const tally = new Tally();
  for (const index of indices) {
    const job = huntJob(seed, index);
    countHunt(tally, job, judgedHunt(job));
  }
  return tally;
}

function countHunt(tally: Tally, { traits }: HuntJob, judged: Judged): void {
  const damage =
    traits.aroundMoved > 0 && !traits.sound ? `${traits.damage}, what stands around along` : traits.damage;
  for (const row of [damage, 'all']) {
    tally.count(['hunt', row, 'settled'], judged.settled);
    tally.count(['hunt', row, 'confidently wrong'], isConfidentlyWrong(judged));
    tally.count(['hunt', row, 'a sound point accused'], judged.accused);
    tally.count(['hunt', row, 'a moved point in a settled base'], judged.wrongBase);
    if (!judged.settled) continue;
    const { figures, points } = judged;
    tallied(tally, ['hunt', row, 'covered'], judged.covered, figures);
    tallied(tally, ['hunt', row, 'far beyond 3 u'], judged.farBeyond, figures);
    tallied(tally, ['hunt', row, 'outside, truly well within'], judged.falseOutside, points);
    tallied(tally, ['hunt', row, 'within, truly far out'], judged.falseWithin, points);
  }
}

function tallied(tally: Tally, key: readonly string[], hits: number, of: number): void {
  for (let i = 0; i < of; i++) tally.count([...key], i < hits);
}

const columns = [
  'settled',
  'confidently wrong',
  'a moved point in a settled base',
  'a sound point accused',
  'covered',
  'far beyond 3 u',
  'outside, truly well within',
  'within, truly far out',
] as const;
const explained = new Set<string>([
  'covered',
  'far beyond 3 u',
  'outside, truly well within',
  'within, truly far out',
]);

/** As Markdown; rows where nothing was counted are left out. */
export function huntPrinted(tally: Tally, jobs: number, seed: number): string {
  const rows = ['all', ...damages.flatMap((each) => [each, `${each}, what stands around along`])]
    .filter((row) => tally.of('hunt', row, 'settled').of > 0)
    .map((row) => [
      row,
      ...columns.map((column) => {
        const count = tally.of('hunt', row, column);
        return explained.has(column) ? `${percent(count)} of ${count.of}` : `${count.hits} / ${count.of}`;
      }),
    ]);
  return title(`${jobs} jobs on bodies laid out by chance, seed ${seed}`) + table(['', ...columns], rows);
}
