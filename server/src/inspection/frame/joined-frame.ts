import { diagonal, type Mat3, type Vec3 } from '../../geometry/vector';
import type { BaseFit } from '../alignment/control-points';
import { type ByOthers, type JudgingFrame, memberByOthers } from '../alignment/judging-frame';
import { type JoinedFit, judgedControl, judgedWitness } from './joined';
import type { StageFrame } from './stage-frame';
import type { Weighing } from './witnesses';

/** Base and witnesses as one frame to judge by (server/README.md, "Witnesses"); null where there are no witnesses. */
export function frameOfJoined(around: StageFrame, base: BaseFit): JudgingFrame | null {
  const { joined, weighing, placing } = around;
  if (joined === null || weighing === null) return null;
  const { centroid, shiftVariance, turnCovariance } = joined.motion;
  const indexById = new Map(base.members.map(({ id }, i) => [id, i]));
  return {
    rotation: placing.rotation,
    translation: placing.translation,
    doubt: { centroid, translation: diagonal(shiftVariance), rotation: turnCovariance },
    byOthers: (id) => {
      const index = indexById.get(id);
      return index === undefined
        ? witnessByOthers(around, joined, weighing, id)
        : (controlByOthers(around, joined, id) ?? memberByOthers(base, index));
    },
  };
}

function controlByOthers({ base }: StageFrame, joined: JoinedFit, id: string): ByOthers | null {
  const point = base.find((each) => each.id === id);
  const judged = point === undefined ? null : judgedControl(joined, point);
  return judged && { ...whole(judged.off, judged.shared), inBase: true, witness: null };
}

function witnessByOthers(
  { groups }: StageFrame,
  joined: JoinedFit,
  weighing: Weighing,
  id: string,
): ByOthers | null {
  for (let g = 0; g < groups.length; g++) {
    const i = groups[g].points.findIndex((point) => point.id === id);
    if (i < 0) continue;
    const judged = judgedWitness(joined, g, groups[g].points[i]);
    const { group, points } = weighing.groups[g];
    return judged && { ...whole(judged.off, judged.shared), inBase: false, witness: group * points[i] };
  }
  return null;
}

const whole = (off: Vec3, shared: Mat3): Pick<ByOthers, 'off' | 'shared' | 'known'> => ({
  off,
  shared: [shared[0][0], shared[1][1], shared[2][2]],
  known: [true, true, true],
});
