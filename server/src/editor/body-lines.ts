import type { Chassis, Point } from '../model/chassis';
import { dayOf } from '../model/dates';
import { printable } from '../text/printable';
import { shortList } from '../wording/wording';
import { type Files, fileKind } from '../workspace/files';
import { folderOf, relativePath } from '../workspace/uris';
import type { ChassisAnalysis } from '../workspace/workspace';
import { dependentsOf } from './dependents';

/** What a data person asks of a chassis file: what it holds and lacks, how old it is, and who rests on it. The same on the command line and over `vehicle`. */
export async function bodyLines(
  { uri, chassis, findings }: Pick<ChassisAnalysis, 'uri' | 'chassis' | 'findings'>,
  files: Pick<Files, 'list' | 'read' | 'root'>,
  shown: Shown = { named: (other) => relativePath(uri, other), most: mostShown },
): Promise<string[]> {
  const { points, parts, spans } = chassis;
  const control = [...points.values()].filter(({ base }) => base).length;
  const wider = findings.filter(({ rule }) => rule === 'chassis/wider-tolerance');
  return [
    `${some(points.size, 'point')} (${some(control, 'control point')}), ${some(parts.size, 'part')}, ${some(spans.length, 'distance')}`,
    ...(chassis.broken
      ? ['the file, or one that it extends, cannot be read as a whole: this is not all of it']
      : []),
    listed('points without use (on no part, no control point, in no distance)', pointsWithoutUse(chassis)),
    listed('parts without points', partsWithoutPoints(chassis)),
    wider.length === 0
      ? 'limits wider than those of its source: none'
      : 'limits wider than those of its source:',
    ...wider.map(({ message, ignored }) => `  ${message}${ignored === null ? '' : ` (ignored: ${ignored})`}`),
    ...sourceLines([...points.values()]),
    ...(await restingLines(uri, files, shown)),
  ].map(printable);
}

const some = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

/** How files are named, and so many in a list at most; null: all. */
interface Shown {
  named(uri: string): string;
  readonly most: number | null;
}

/** What a hover has room for. */
const mostShown = 8;

const listed = (what: string, names: readonly string[], most: number | null = mostShown): string =>
  `${what}: ${names.length === 0 ? 'none' : `${names.length}: ${shortList(names, most ?? names.length)}`}`;

function pointsWithoutUse({ points, spans }: Chassis): string[] {
  const ends = new Set(spans.flatMap(({ from, to }) => [from, to]));
  return [...points.values()]
    .filter(({ id, part, base }) => part === null && !base && !ends.has(id))
    .map(({ id }) => id);
}

function partsWithoutPoints({ points, parts }: Chassis): string[] {
  const used = new Set([...points.values()].map(({ part }) => part));
  return [...parts.keys()].filter((id) => !used.has(id));
}

/** The oldest first; before them those that tell no date. No clock is asked how old that is. */
function sourceLines(points: readonly Point[]): string[] {
  const counts = new Map<string, number>();
  for (const { source } of points) {
    const day = source?.date ? dayOf(source.date) : 'no date';
    const words = source === null ? 'no source' : [source.kind, source.reference].filter(Boolean).join(', ');
    const key = `${day}: ${words}`;
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  const isDated = (line: string): number => Number(/^\d/.test(line));
  const lines = [...counts].sort(([a], [b]) => isDated(a) - isDated(b) || (a < b ? -1 : 1));
  return ['sources, the oldest first:', ...lines.map(([key, count]) => `  ${key}: ${some(count, 'point')}`)];
}

async function restingLines(
  uri: string,
  files: Pick<Files, 'list' | 'read' | 'root'>,
  { named, most }: Shown,
): Promise<string[]> {
  const folder = (await files.root(uri)) ?? folderOf(uri);
  const resting = await dependentsOf(files, folder, [uri]);
  const [open, signed]: string[][] = [[], []];
  for (const each of resting.filter((one) => fileKind(one) === 'readings')) {
    const read = await files.read(each);
    const isSigned = read.kind === 'text' && /^["']?sign-off["']?[ \t]*:/m.test(read.text);
    (isSigned ? signed : open).push(named(each));
  }
  const variants = resting.filter((one) => fileKind(one) === 'chassis').map(named);
  return [
    listed('variants that extend it', variants, most),
    listed('open jobs that rest on it', open, most),
    listed('signed jobs that rest on it', signed, most),
  ];
}
