import { add, transformed, type Vec3 } from '../../../server/src/geometry/vector';
import type { Inspection } from '../../../server/src/inspection/job/inspect';
import type { Point } from '../../../server/src/model/chassis';
import { inspectionOf } from '../../../server/src/testing/car';
import type { SeededRandom } from '../../published/seeded-random';
import { anyRotation, jobRandom, normalVec3, pick } from '../random';
import { damageKinds, kindsWithSeams, type PlanDamage, planDamage } from './damage';
import { toleranceMm, world, worldTexts } from './world';

export interface PlanJob {
  readonly damage: PlanDamage;
  readonly inspection: Inspection;
  /** How far each point truly is off its reference, the scatter of a sound body included. */
  readonly truth: ReadonlyMap<string, Vec3>;
}

const buildMm = 0.5;

function scatter(random: SeededRandom): Vec3 {
  const one = (): number => {
    const x = random.normal(buildMm);
    return Math.abs(x) < toleranceMm ? x : one();
  };
  return [one(), one(), one()];
}

/** Half of what was hit, or all of it: as received, or after a pull that left the rest. On a body whose file says nothing of seams, or names them. */
export function planJob(seed: number, index: number, seams: keyof typeof worldTexts = 'apart'): PlanJob {
  const random = jobRandom(seed, index);
  const kinds = seams === 'apart' ? damageKinds : kindsWithSeams;
  const damage = planDamage(kinds[index % kinds.length], random);
  const uncertaintyMm = pick(random, [0.2, 0.35, 0.5]);
  const rotation = anyRotation(random);
  const origin: Vec3 = [
    random.uniform(-3000, 3000),
    random.uniform(-3000, 3000),
    random.uniform(-3000, 3000),
  ];
  const truth = new Map<string, Vec3>();
  const rows = [...world.points.values()].map((point: Point) => {
    const off = add(scatter(random), damage.field(point));
    truth.set(point.id, off);
    const at = add(
      add(transformed(rotation, add(point.reference, off)), origin),
      normalVec3(random, uncertaintyMm),
    );
    return `      ${point.id}: [${at.map((mm) => mm.toFixed(2)).join(', ')}]`;
  });
  const text = `framewright: readings/1
chassis: car.chassis.yaml
instrument: { name: arm, uncertainty: ${uncertaintyMm} }
timeline:
  - measure: as received
    readings:
${rows.join('\n')}
`;
  return { damage, truth, inspection: inspectionOf(text, worldTexts[seams]) };
}
