import type { Diff, DiffFile } from '@framewright/schemas';
import { counted } from './line';
import type { Told } from './told';
import { losesGate, losesSignature } from './verdict-words';

/** Two sides with all their files: the gravest first. */
export function wholeDiff(
  from: string,
  to: string,
  told: readonly Told[],
): { diff: Diff; told: readonly Told[] } {
  const sorted = [...told].sort(
    (a, b) => rank(a.file) - rank(b.file) || (a.file.path < b.file.path ? -1 : 1),
  );
  const files = sorted.map(({ file }) => file);
  const meaning = files.some((file) => file.meaning === 'unknown')
    ? 'unknown'
    : files.some((file) => file.meaning === 'different')
      ? 'different'
      : 'same';
  return {
    diff: { framewright: 'diff/1', from, to, meaning, verdict: verdictOf(files), files },
    told: sorted,
  };
}

const changedLate = ({ job }: DiffFile): boolean => job?.afterSignature === true;
const ownSignature = ({ job }: DiffFile): boolean => job !== null && losesSignature(job);

const rank = (file: DiffFile): number =>
  changedLate(file)
    ? 0
    : ownSignature(file) || file.touches.some(losesSignature)
      ? 1
      : file.meaning === 'unknown'
        ? 2
        : file.meaning === 'different'
          ? 3
          : 4;

function verdictOf(files: readonly DiffFile[]): string {
  if (files.length === 0) return 'no file of ours differs';
  const [only] = files;
  if (files.length === 1) return `${only.path}: ${only.verdict}`;
  const differing = files.filter(({ meaning }) => meaning === 'different').length;
  const unknown = files.filter(({ meaning }) => meaning === 'unknown').length;
  const jobs = jobsIn(files);
  const grave: [number, string, string][] = [
    [
      files.filter(changedLate).length,
      'job changed after its signature',
      'jobs changed after their signatures',
    ],
    [
      jobs.filter(losesGate).length,
      'signed job no longer passes its gate',
      'signed jobs no longer pass their gate',
    ],
    [jobs.filter(losesSignature).length, 'signature no longer agrees', 'signatures no longer agree'],
    [unknown, 'file cannot be judged', 'files cannot be judged'],
  ];
  const said = grave.filter(([count]) => count > 0).map(([count, one, many]) => counted(count, one, many));
  const head =
    differing === 0 && unknown === 0
      ? `same meaning: of ${files.length} files the text alone differs`
      : `${differing} of ${files.length} changed files ${differing === 1 ? 'differs' : 'differ'} in meaning`;
  return said.length === 0 ? head : `${said.join('; ')}. ${head}`;
}

/** Each job once, be it changed itself or touched by several files. */
function jobsIn(files: readonly DiffFile[]): Parameters<typeof losesGate>[0][] {
  const jobs = new Map<string, Parameters<typeof losesGate>[0]>();
  for (const { touches } of files) for (const job of touches) jobs.set(job.path, job);
  for (const { path, job } of files) if (job !== null) jobs.set(path, job);
  return [...jobs.values()];
}
