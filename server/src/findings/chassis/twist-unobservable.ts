import { levelsOf } from '../../inspection/shape/levels';
import { crossAxes, groupedAlong, levelSeparationMm } from '../../inspection/shape/stations';
import type { Axis, Chassis, Part, Point } from '../../model/chassis';
import { lengthText } from '../../model/units';
import type { Draft, Rule } from '../rule/rule';
import { extentMm } from './extent';

const shortestMm = 300;

export const twistUnobservable: Rule = {
  name: 'chassis/twist-unobservable',
  severity: 'information',
  since: '0.1',
  failsCheck: 'always',
  page: {
    summary: 'A sided part over 300 mm long has points on one level only.',
    why: 'A rail that is twisted about its own length keeps its lower points where they were and moves the upper ones. With one level of points no measurement can show it, and the rail passes.',
    example:
      '  rail-root-lower: { both: [1760, 441, 188], part: front-rail }\n  rail-tip-lower:  { both: [3012, 448, 210], part: front-rail }      # no upper points',
    exampleIn: {
      place: 'chassis',
      before: `vehicle: Marten
parts:
  front-rail: { sided: true }
points:`,
    },
    mend: 'At one place or more along the part, add a second point over 40 mm above or below the first (on a pillar or crossmember: over 40 mm beside it).',
    source:
      'Common practice in the trade: a rail whose lower points are on and whose upper points are off is twisted.',
  },
  ofChassis: ({ chassis }) => {
    if (chassis.broken) return [];
    const pointsOf = new Map<string, Point[]>();
    for (const point of chassis.points.values())
      if (point.part !== null) pointsOf.set(point.part, [...(pointsOf.get(point.part) ?? []), point]);
    const drafts = new Map<string, Draft & { sides: string[] }>();
    for (const part of chassis.parts.values()) {
      if (part.side === null || part.origin.uri !== chassis.uri || chassis.unread.parts.has(part.name))
        continue;
      const lengthMm = lengthOfOneLevel(part, pointsOf.get(part.id) ?? []);
      if (lengthMm === null) continue;
      const sides = [...(drafts.get(part.name)?.sides ?? []), part.id];
      drafts.set(part.name, {
        place: part.origin.place,
        message: messageFor(part, sides, lengthMm, chassis),
        sides,
      });
    }
    return [...drafts.values()].map(({ place, message }) => ({ place, message }));
  },
};

/** How far the points of a part reach along it, where that is over 300 mm and no station has two levels; else null. */
function lengthOfOneLevel({ along }: Part, points: readonly Point[]): number | null {
  const items = points.map((point) => ({ point }));
  const lengthMm = extentMm(points.map((point) => point.reference[along]));
  if (lengthMm <= shortestMm) return null;
  const twoLevels =
    along === 0
      ? levelsOf(items, along).length > 0
      : groupedAlong(items, along).some((members) => standsApart(members, along));
  return twoLevels ? null : lengthMm;
}

/** Whether two points at one place of a pillar or a crossmember stand far enough apart across it to show its turning. */
function standsApart(members: readonly { readonly point: Point }[], along: Axis): boolean {
  const [i, j] = crossAxes[along];
  return members.some(({ point: a }, n) =>
    members
      .slice(n + 1)
      .some(
        ({ point: b }) =>
          Math.hypot(a.reference[i] - b.reference[i], a.reference[j] - b.reference[j]) > levelSeparationMm,
      ),
  );
}

function messageFor(part: Part, sides: readonly string[], lengthMm: number, { unit }: Chassis): string {
  const name = sides.length === 2 ? part.name : sides[0];
  const apart = lengthText(levelSeparationMm, unit);
  const where =
    part.along === 0 ? `over ${apart} above or below one of them` : `over ${apart} beside one of them`;
  return `the points of ${name} stand on one level over ${lengthText(lengthMm, unit)}: a twist of it cannot be seen. Add a point ${where}`;
}
