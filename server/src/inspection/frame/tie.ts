import { add, product, subtract, transformed, transposed, type Vec3 } from '../../geometry/vector';
import { type BaseFit, type Choice, consistentFit } from '../alignment/control-points';
import type { FramePoint } from './frame-points';
import type { Placing, StageFrame } from './stage-frame';
import { type BaseQuestion, frameAround, scopeOf } from './told-base';

/**
 * Bases that explain the control points equally well, and of which it does not matter which is right: joined with the witnesses, each
 * by itself, all place every point of the scope alike. Then one of the points in which they differ is off, and neither is accused.
 */
interface Tie {
  /** What all of them hold for sound. */
  readonly base: BaseFit;
  readonly frame: StageFrame;
  /** In which they differ, sorted. */
  readonly ids: readonly string[];
  /** That all of them leave out. */
  readonly movedIds: readonly string[];
}

/** The share of its tolerance within which a point is placed alike. */
const alike = 1 / 2;
/** Three that fit show nothing: any three near enough do. */
const fewest = 4;

/** @param rivals all that speaks against the choice; null where some of them is no rival of its own kind, or where it matters */
export function tieOf(
  choice: Choice,
  rivals: readonly BaseFit[],
  first: StageFrame,
  asked: BaseQuestion,
): Tie | null {
  if (first.weighing === null || rivals.length === 0) return null;
  if (!rivals.every((rival) => choice.alternatives.includes(rival))) return null;
  const scope = scopeOf(asked);
  for (const rival of rivals) {
    const other = frameAround(rival, asked);
    if (other === null || other.weighing === null) return null;
    if (!placedAlike(first.placing, other.placing, scope)) return null;
  }
  const inAll = (id: string) => rivals.every(({ members }) => members.some((member) => member.id === id));
  const common = choice.base.members.filter(({ id }) => inAll(id));
  const base = common.length < fewest ? null : consistentFit(common);
  const frame = base && frameAround(base, asked);
  if (base === null || frame === null || frame.weighing === null) return null;
  if (!placedAlike(first.placing, frame.placing, scope)) return null;
  const known = new Set(common.map(({ id }) => id));
  const inSome = new Set([choice.base, ...rivals].flatMap(({ members }) => members.map(({ id }) => id)));
  return {
    base,
    frame,
    ids: [...inSome].filter((id) => !known.has(id)).sort(),
    movedIds: choice.movedIds.filter((id) => !inSome.has(id)),
  };
}

function placedAlike(a: Placing, b: Placing, points: readonly Pick<FramePoint, 'place' | 'half'>[]): boolean {
  const turn = product(b.rotation, transposed(a.rotation));
  const shift: Vec3 = subtract(b.translation, transformed(turn, a.translation));
  return points.every(({ place, half }) => {
    const off = subtract(add(transformed(turn, place), shift), place);
    return half.every((each, k) => Math.abs(off[k]) <= alike * each);
  });
}
