import type { DiffBody, DiffChange, DiffSpan, DiffThing } from '@framewright/schemas';
import { length, subtract, type Vec3 } from '../geometry/vector';
import { axes, type Chassis, type Limits, type Part, type Point, type Span } from '../model/chassis';
import { fileName } from '../model/file-name';
import { axisNames } from '../wording/wording';
import { anyDiffers, changeOf, differs, inWords, pairedMaps, statedChanges } from './compared';

/** What is another in a body, parents taken in: vehicle axes, mm. */
export function chassisChanges(before: Chassis, after: Chassis): DiffBody {
  const points = pairedMaps(before.points, after.points);
  return {
    head: headChanges(before, after),
    points: points.flatMap(({ key, pair }) => pointChange(key, pair.before, pair.after)),
    limits: points.flatMap(({ pair }) =>
      pair.before === null || pair.after === null ? [] : limitChanges(pair.before, pair.after),
    ),
    facts: points.flatMap(({ key, pair }) =>
      pair.before === null || pair.after === null
        ? []
        : changedThing(key, statedChanges(factsOf(pair.before), factsOf(pair.after))),
    ),
    parts: pairedMaps(before.parts, after.parts).flatMap(({ key, pair }) =>
      partChange(key, pair.before, pair.after),
    ),
    spans: pairedMaps(spansOf(before), spansOf(after)).flatMap(({ pair }) =>
      spanChange(pair.before, pair.after),
    ),
  };
}

export const isSameBody = ({ head, points, limits, facts, parts, spans }: DiffBody): boolean =>
  [head, points, limits, facts, parts, spans].every((list) => list.length === 0);

function headChanges(before: Chassis, after: Chassis): DiffChange[] {
  const parents = ({ chain }: Chassis) => inWords(chain.slice(1).map(({ uri }) => fileName(uri)));
  const said = (value: number) => `${inWords(value) ?? '0'} mm`;
  return [
    ...changeOf('vehicle', inWords(before.vehicle), inWords(after.vehicle)),
    ...changeOf('extends', parents(before), parents(after)),
    ...changeOf('source', inWords(before.source), inWords(after.source)),
    ...changeOf('conditions', inWords(before.conditions), inWords(after.conditions)),
    ...changeOf('build', said(before.buildMm), said(after.buildMm)),
    ...changeOf('build-elsewhere', said(before.buildElsewhereMm), said(after.buildElsewhereMm)),
    ...changeOf('tolerance of spans', said(before.spanToleranceMm), said(after.spanToleranceMm)),
  ];
}

const tripleOf = ([x, y, z]: Vec3): [number, number, number] => [x, y, z];

function pointChange(id: string, before: Point | null, after: Point | null): DiffBody['points'] {
  const [was, now] = [before && tripleOf(before.reference), after && tripleOf(after.reference)];
  const entry = { id, before: was, after: now };
  if (was === null) return [{ ...entry, status: 'added', shift: null, distance: null }];
  if (now === null) return [{ ...entry, status: 'dropped', shift: null, distance: null }];
  if (!anyDiffers(was, now)) return [];
  const shift = subtract(now, was);
  return [{ ...entry, status: 'changed', shift: tripleOf(shift), distance: length(shift) }];
}

/** Past the other band at either end. */
const isWider = (after: Limits, before: Limits): boolean =>
  after[0] < before[0] - 1e-6 || after[1] > before[1] + 1e-6;

const bandOf = ([low, high]: Limits): [number, number] => [low, high];

const limitChanges = (before: Point, after: Point): DiffBody['limits'] =>
  axes.flatMap((k) =>
    anyDiffers(before.limits[k], after.limits[k])
      ? [
          {
            id: after.id,
            axis: axisNames[k],
            before: bandOf(before.limits[k]),
            after: bandOf(after.limits[k]),
            wider: isWider(after.limits[k], before.limits[k]),
          },
        ]
      : [],
  );

const factsOf = ({ part, base, uncertaintyMm, fixing, source }: Point): object => ({
  part,
  'control point': base,
  uncertaintyMm,
  fixing,
  source,
});

const changedThing = (id: string, changes: DiffChange[]): DiffThing[] =>
  changes.length === 0 ? [] : [{ id, status: 'changed', changes }];

function partChange(id: string, before: Part | null, after: Part | null): DiffThing[] {
  if (before === null) return [{ id, status: 'added', changes: [] }];
  if (after === null) return [{ id, status: 'dropped', changes: [] }];
  return changedThing(id, statedChanges(rulesOf(before), rulesOf(after)));
}

const rulesOf = ({ along, steel, straighten, section, heat, attached, reference }: Part): object => ({
  along: axisNames[along],
  steel,
  straighten,
  section,
  heat,
  attached,
  reference,
});

const spansOf = ({ spans }: Chassis): Map<string, Span> =>
  new Map(spans.map((span) => [[span.from, span.to].sort().join(' '), span]));

const readOf = ({ level, uncertaintyMm }: Span): object => ({ 'read level': level, uncertaintyMm });

function spanChange(before: Span | null, after: Span | null): DiffSpan[] {
  const one = after ?? before;
  if (one === null) return [];
  const entry = {
    from: one.from,
    to: one.to,
    before: before?.distanceMm ?? null,
    after: after?.distanceMm ?? null,
    limitsBefore: before && bandOf(before.limits),
    limitsAfter: after && bandOf(after.limits),
    changes: before && after ? statedChanges(readOf(before), readOf(after)) : [],
  };
  if (before === null) return [{ ...entry, status: 'added', wider: false }];
  if (after === null) return [{ ...entry, status: 'dropped', wider: false }];
  const isSame =
    !differs(before.distanceMm, after.distanceMm) &&
    !anyDiffers(before.limits, after.limits) &&
    entry.changes.length === 0;
  return isSame ? [] : [{ ...entry, status: 'changed', wider: isWider(after.limits, before.limits) }];
}
