import type { Solid, SolidPart } from '@framewright/schemas/wire';
import type { Vec3 } from '../../geometry/vector';
import type { Inspection } from '../../inspection/job/inspect';
import { derived } from '../../memory/derived';
import type { Chassis } from '../../model/chassis';
import { mmPer, type Unit } from '../../model/units';
import { roundedText } from '../../wording/wording';
import { shortened } from '../markup';
import type { Drawing } from './drawing';
import { magnificationOf, tipOf } from './drawing-arrow';
import { extentsOf } from './drawing-frame';
import { worstFirst } from './drawing-marks';
import { cornersByPart } from './drawing-parts';
import { isLoud, symbolPath } from './drawing-symbols';
import { views } from './drawing-views';

const usuallyNamed = 8;

/** @param drawing of the stage that is shown; its views, if it has any, do not count */
export function solidOf(inspection: Inspection, drawing: Drawing, selected: string | null): Solid {
  const magnification = magnificationOf(inspection);
  const named = new Set(worstFirst(drawing.points).slice(0, usuallyNamed));
  const [x, y, z] = extentsOf(inspection);
  return {
    factor: drawing.factor,
    stage: drawing.stage,
    over: drawing.over,
    cautions: drawing.cautions,
    least: [x[0], y[0], z[0]],
    most: [x[1], y[1], z[1]],
    points: drawing.points.map(({ point, state, judged, earlier, text }) => {
      const tip = judged && tipOf(judged, magnification);
      return {
        id: point.id,
        state,
        at: point.reference,
        tip: tip?.at ?? null,
        cut: tip?.cut ?? false,
        partial: tip !== null && judged!.deviation.some((mm) => mm === null),
        earlier: earlier && (tipOf(earlier, magnification)?.at ?? null),
        named: named.has(point.id) || point.id === selected,
        selected: point.id === selected,
        text,
      };
    }),
    parts: partsOf(inspection, drawing),
    ground: groundOf(x, y, gridMm[inspection.job.unit]),
    gridText: roundedText(gridMm[inspection.job.unit], inspection.job.unit),
    symbols: Object.fromEntries(
      [...new Set(drawing.points.map(({ state }) => state))].map((state) => [state, symbolPath(state, 0, 0)]),
    ),
  };
}

const gridMm: Record<Unit, number> = { mm: 500, inch: 20 * mmPer.inch };

type Range = readonly [number, number];

function groundOf(x: Range, y: Range, stepMm: number): Solid['ground'] {
  const [fromX, toX, fromY, toY] = [x[0], x[1], y[0], y[1]];
  const steps = ([from, to]: Range) => {
    const first = Math.ceil(from / stepMm);
    return Array.from({ length: Math.floor(to / stepMm) - first + 1 }, (_, i) => (first + i) * stepMm);
  };
  const across = steps(x).map((mm) => ({
    kind: mm === 0 ? ('zero' as const) : ('grid' as const),
    line: [
      [mm, fromY, 0],
      [mm, toY, 0],
    ] as const,
  }));
  const along = steps(y).map((mm) => ({
    kind: mm === 0 ? ('centreline' as const) : ('grid' as const),
    line: [
      [fromX, mm, 0],
      [toX, mm, 0],
    ] as const,
  }));
  return [...across, ...along];
}

function partsOf(inspection: Inspection, { points }: Drawing): SolidPart[] {
  const magnification = magnificationOf(inspection);
  const ends = new Map(
    points.flatMap(({ point, judged }): [string, Vec3][] => {
      if (judged === null || judged.deviation.some((mm) => mm === null)) return [];
      const tip = tipOf(judged, magnification);
      return tip === null || tip.cut ? [] : [[point.id, tip.at]];
    }),
  );
  const { chassis } = inspection;
  const off = new Set(points.filter(({ state }) => isLoud(state)).map(({ point }) => point.part));
  const place = (id: string) => chassis.points.get(id)!.reference;
  return [...edgesByPart(chassis)].map(([id, edges]) => ({
    id: shortened(id, 48),
    lines: edges.map(([a, b]) => [place(a), place(b)] as const),
    measured: (off.has(id) ? edges : []).flatMap(([a, b]) => {
      const [from, to] = [ends.get(a), ends.get(b)];
      return from === undefined || to === undefined ? [] : [[from, to] as const];
    }),
  }));
}

/** The outlines that a part has in the views, as lines from point to point. */
const edgesByPart = derived(
  (chassis: Chassis): ReadonlyMap<string, readonly (readonly [string, string])[]> => {
    const outlines = cornersByPart(chassis);
    return new Map(
      [...chassis.parts.keys()].map((id) => {
        const edges = new Map<string, readonly [string, string]>();
        for (const view of views) {
          const corners = outlines[view].get(id) ?? [];
          corners.forEach((corner, i) => {
            const next = corners[(i + 1) % corners.length];
            const [a, b] = corner.id < next.id ? [corner.id, next.id] : [next.id, corner.id];
            if (a !== b) edges.set(`${a} ${b}`, [a, b]);
          });
        }
        return [id, [...edges.values()]];
      }),
    );
  },
);
