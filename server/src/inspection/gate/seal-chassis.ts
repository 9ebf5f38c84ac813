import type { Chassis, Part, Point } from '../../model/chassis';
import type { Job, TimelineEntry } from '../../model/job';
import { idsNamed } from '../../model/names';
import { type Plain, sortedSet } from './canonical';

/**
 * What a sign-off's `chassis` seals: the body as the job uses it. Its points that the job names, its control points and all points of parts
 * that it names or touches; the rules of their parts; the distances that were read; the scatter of sound bodies. Lengths in mm, points in
 * vehicle axes; temperatures in °C, times in s.
 */
export function sealedChassis(job: Job, chassis: Chassis): Plain {
  const { points, parts } = usedBy(job, chassis);
  const pairs = sortedPairs(job);
  const listed = chassis.spans.filter(({ from, to }) => pairs.has(pairOf(from, to)));
  const known = new Set(listed.map(({ from, to }) => pairOf(from, to)));
  return {
    build: chassis.buildMm === 0.5 ? null : chassis.buildMm,
    'build-elsewhere': chassis.buildElsewhereMm === 1 ? null : chassis.buildElsewhereMm,
    points: Object.fromEntries(points.map((point) => [point.id, sealedPoint(point)])),
    parts: Object.fromEntries(parts.map((part) => [part.id, sealedPart(part)])),
    spans: sortedSet(
      listed.map(({ from, to, distanceMm, limits, level, uncertaintyMm }) => [
        ...[from, to].sort(),
        { distance: distanceMm, limits, level: level || null, uncertainty: uncertaintyMm || null },
      ]),
    ),
    // what distances that no file lists are judged by
    'span-tolerance':
      [...pairs].every((pair) => known.has(pair)) || chassis.spanToleranceMm === 3
        ? null
        : chassis.spanToleranceMm,
  };
}

const pairOf = (from: string, to: string): string => [from, to].sort().join(' ');

const sortedPairs = (job: Job): ReadonlySet<string> =>
  new Set(
    job.timeline.flatMap((entry) =>
      entry.kind === 'measure' ? entry.spans.map(({ from, to }) => pairOf(from, to)) : [],
    ),
  );

function usedBy(job: Job, chassis: Chassis): { points: Point[]; parts: Part[] } {
  const names = namesIn(job);
  const all = [...chassis.points.values()];
  const isNamed = new Set(names.points.flatMap((id) => idsNamed(id, chassis.points)));
  const touched = new Set([
    ...names.parts.flatMap((id) => idsNamed(id, chassis.parts)),
    ...all.flatMap(({ id, part }) => (isNamed.has(id) && part !== null ? [part] : [])),
  ]);
  const points = all.filter(
    ({ id, part, base }) => base || isNamed.has(id) || (part !== null && touched.has(part)),
  );
  const used = new Set([...touched, ...points.map(({ part }) => part)]);
  return { points, parts: [...chassis.parts.values()].filter(({ id }) => used.has(id)) };
}

interface Names {
  readonly points: readonly string[];
  readonly parts: readonly string[];
}

function namesIn({ anchors, base, scope, timeline }: Job): Names {
  const inTimeline = timeline.map(namesInEntry);
  const ids = [...anchors, ...(base.kind === 'ids' ? base.ids : [])].map(({ id }) => id);
  return {
    points: [...ids, ...inTimeline.flatMap(({ points }) => points)],
    parts: [...(scope ?? []).map(({ id }) => id), ...inTimeline.flatMap(({ parts }) => parts)],
  };
}

function namesInEntry(entry: TimelineEntry): Names {
  switch (entry.kind) {
    case 'measure':
      return {
        points: [...entry.readings.map(({ id }) => id), ...entry.spans.flatMap(({ from, to }) => [from, to])],
        parts: [],
      };
    case 'pull':
      return {
        points: [
          ...entry.chains.map(({ hook }) => hook.id),
          ...entry.holds.flatMap((hold) => (hold.kind === 'point' ? hold.point.id : [])),
        ],
        parts: [
          ...(entry.part ? [entry.part.id] : []),
          ...entry.holds.flatMap((hold) => (hold.kind === 'part' ? hold.part.id : [])),
        ],
      };
    case 'relieve':
    case 'release':
      return { points: [], parts: entry.parts === 'all' ? [] : entry.parts.map(({ id }) => id) };
    case 'join':
      return { points: [], parts: [...entry.parts, ...(entry.to ?? [])].map(({ id }) => id) };
    case 'note':
      return { points: [], parts: [] };
    default:
      return { points: [], parts: entry.part ? [entry.part.id] : [] };
  }
}

const sealedPoint = ({
  reference,
  limits,
  uncertaintyMm,
  uncertaintyByAxisMm,
  part,
  base,
}: Point): Plain => ({
  at: reference,
  limits: limits.every(([low, high]) => low === -3 && high === 3) ? null : limits,
  uncertainty: uncertaintyByAxisMm ?? (uncertaintyMm || null),
  part,
  base: base || null,
});

const ways = ['length', 'width', 'height'] as const;

const sealedPart = ({ along, steel, straighten, section, heat, attached }: Part): Plain => ({
  along: along === 0 ? null : ways[along],
  steel,
  straighten,
  section,
  heat: heat === null || heat === 'never' ? heat : { to: heat.toCelsius, for: heat.forSeconds },
  attached: attached.join() === 'welded' ? null : sortedSet(attached),
});
