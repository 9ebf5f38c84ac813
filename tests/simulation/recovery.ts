import { add, length, scaled, subtract, type Vec3 } from '../../server/src/geometry/vector';
import type { SeededRandom } from '../published/seeded-random';
import type { RecoveryLaw } from './grid';
import { unitVec3 } from './random';

/** Where the metal stands, by point id: vehicle axes, mm. */
export type State = ReadonlyMap<string, Vec3>;

export interface TruePull {
  readonly before: State;
  readonly peak: State;
  readonly after: State;
}

/** Of one job: r = constant + share · m, times what differs from pull to pull and from point to point. */
export interface Recovery {
  readonly constantMm: number;
  readonly share: number;
}

export function recoveryOf(law: RecoveryLaw, random: SeededRandom): Recovery {
  const constantMm = random.uniform(2, 8);
  const share = random.uniform(0.1, 0.4);
  if (law === 'constant') return { constantMm, share: 0 };
  if (law === 'share') return { constantMm: 0, share };
  return { constantMm: constantMm / 2, share: share / 2 };
}

/**
 * Pulls that carry a part from one state to another: each leaves its share of the whole way, overdrawn by what comes back.
 * Recovery differs by 8 % from pull to pull and by 5 % from point to point, and comes back a little askew.
 */
export function pullsBetween(
  from: State,
  to: State,
  ids: readonly string[],
  count: number,
  recovery: Recovery,
  random: SeededRandom,
): TruePull[] {
  const pulls: TruePull[] = [];
  let before = stateOf(ids, (id) => from.get(id)!);
  for (let k = 1; k <= count; k++) {
    const done = k / count;
    const after = stateOf(ids, (id) => add(scaled(from.get(id)!, 1 - done), scaled(to.get(id)!, done)));
    const ofPull = 1 + random.normal(0.08);
    const peak = stateOf(ids, (id) => {
      const factor = ofPull * (1 + random.normal(0.05));
      const askew = scaled(unitVec3(random), 0.03);
      const lasting = subtract(after.get(id)!, before.get(id)!);
      const way = length(lasting);
      if (way === 0) return after.get(id)!;
      // metal that hardly moves has little to give back
      const constant = recovery.constantMm * Math.min(1, way / 5);
      const back = (factor * (constant + recovery.share * way)) / (1 - factor * recovery.share);
      return add(after.get(id)!, scaled(add(scaled(lasting, 1 / way), askew), back));
    });
    pulls.push({ before, peak, after });
    before = after;
  }
  return pulls;
}

const stateOf = (ids: readonly string[], at: (id: string) => Vec3): State =>
  new Map(ids.map((id) => [id, at(id)]));
