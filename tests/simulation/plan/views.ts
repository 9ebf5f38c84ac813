import type { Vec3 } from '../../../server/src/geometry/vector';
import type { Inspection } from '../../../server/src/inspection/job/inspect';
import { jobPlan } from '../../../server/src/inspection/pulls/job-plan/job-plan';
import { holdPlaces } from '../../../server/src/inspection/pulls/plan-hold';
import type { Part, Point } from '../../../server/src/model/chassis';
import { mirroredId, nameOf, sideOf } from '../../../server/src/model/names';
import { inspectionOf } from '../../../server/src/testing/car';
import { world } from './world';

/** One and the same car, told in other ways: what its plan must not depend on. */
export interface View {
  readonly signs: Vec3;
  readonly swapsSides: boolean;
  readonly named: (name: string) => string;
  readonly isReversed: boolean;
}
const plain: View = { signs: [1, 1, 1], swapsSides: false, named: (name) => name, isReversed: false };
const lettersTurned = (name: string): string =>
  name.replace(/[a-z]/g, (letter) => String.fromCharCode(219 - letter.charCodeAt(0)));
export const views: Readonly<Record<string, View>> = {
  'as it stands': plain,
  mirrored: { ...plain, signs: [1, -1, 1], swapsSides: true },
  'end for end': { ...plain, signs: [-1, -1, 1], swapsSides: true },
  'with other names': { ...plain, named: lettersTurned },
  'in another order': { ...plain, isReversed: true },
};

const idIn = (view: View, id: string): string => {
  const seen = (view.swapsSides ? mirroredId(id) : id) ?? id;
  const side = sideOf(seen);
  return `${view.named(nameOf(seen))}${side === null ? '' : `.${side}`}`;
};

const turned = (v: Vec3, { signs }: View): Vec3 => [v[0] * signs[0], v[1] * signs[1], v[2] * signs[2]];

/** @param off how far each point is off, readings' errors included, in the car's own axes */
export function inspectionIn(view: View, off: ReadonlyMap<string, Vec3>): Inspection {
  const points = [...world.points.values()];
  const parts = [...world.parts.values()];
  const seen = view.isReversed ? points.reverse() : points;
  const byName = new Map<string, Point[]>();
  for (const point of seen) byName.set(point.name, [...(byName.get(point.name) ?? []), point]);
  const names = [...new Set((view.isReversed ? parts.reverse() : parts).map(({ name }) => name))];
  const chassis = `framewright: chassis/1
vehicle: Marten hatchback
parts:
${names.map((name) => partLine(view, parts.find((part) => part.name === name)!)).join('\n')}
points:
${[...byName].map(([name, own]) => pointLine(view, name, own)).join('\n')}
`;
  const rows = seen.map((point) => {
    const [x, y, z] = turned(point.reference, view);
    const [dx, dy, dz] = turned(off.get(point.id)!, view);
    return `      ${idIn(view, point.id)}: [${[x + dx, y + dy, z + dz].map((mm) => mm.toFixed(4)).join(', ')}]`;
  });
  const job = `framewright: readings/1
chassis: car.chassis.yaml
instrument: { name: arm, uncertainty: 0.4 }
timeline:
  - measure: as received
    readings:
${rows.join('\n')}
`;
  return inspectionOf(job, chassis);
}

const partLine = (view: View, { name, side, along }: Part): string =>
  `  ${view.named(name)}: { sided: ${side !== null}, along: ${['length', 'width', 'height'][along]}, straighten: freely }`;

function pointLine(view: View, name: string, points: readonly Point[]): string {
  const [{ part, base }] = points;
  const places = points.map(({ id, reference }) => {
    const [x, y, z] = turned(reference, view);
    const side = sideOf(idIn(view, id));
    const key = side === null ? 'centre' : side === 'L' ? 'left' : 'right';
    return `${key}: [${x}, ${side === 'R' ? -y : y}, ${z}]`;
  });
  const facts = [
    ...places,
    ...(part === null ? [] : [`part: ${view.named(nameOf(part))}`]),
    ...(base ? ['base: true'] : []),
  ];
  return `  ${view.named(name)}: { ${facts.join(', ')} }`;
}

/** A plan as the plain view tells it: steps in order, with what they pull, where and which way, and where they hold. */
export function planIn(view: View, off: ReadonlyMap<string, Vec3>): unknown {
  const ids = new Map([...world.points.keys(), ...world.parts.keys()].map((id) => [idIn(view, id), id]));
  const back = (id: string): string => ids.get(id) ?? id;
  const rounded = (v: Vec3) => v.map((each) => Math.round(50 * each) / 50 + 0);
  return jobPlan(inspectionIn(view, off)).steps.map((step) =>
    step.kind === 'renew'
      ? back(step.part.id)
      : {
          parts: step.plans.map(({ part }) => back(part.id)).sort(),
          hooks: step.hooks.map(({ move, direction, holdsBack }) => ({
            id: back(move.id),
            way: rounded(turned(direction, view)),
            holdsBack,
          })),
          holds: step.plans
            .flatMap(({ part, hold }) =>
              holdPlaces(hold).map(
                ({ atMm, towards }) =>
                  `${back(part.id)} ${Math.round(view.signs[part.along] * atMm)} ${view.signs[part.along] * towards}`,
              ),
            )
            .sort(),
        },
  );
}
