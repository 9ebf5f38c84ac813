import type { JudgingVersion } from '@framewright/schemas';
import {
  type BaseFit,
  type Candidate,
  type Choice,
  complement,
  sameMembers,
  trustedBase,
} from '../alignment/control-points';
import { rivalZones } from '../alignment/two-bodies';
import type { AlignmentFault, Alternative } from './alignment-fault';
import { doubted } from './doubt';
import type { StageFrame } from './stage-frame';
import { tieOf } from './tie';
import { toldAlternatives } from './told-alternatives';
import { type BaseQuestion, frameAround, storiesOfBase } from './told-base';
import { groupsByBase, type SeenGroup } from './witnesses-seen';

/** The base of one stage, and what is to be said of it (server/README.md, "Control points" to "Doubt"). */
export interface Searched {
  readonly base: BaseFit;
  readonly movedIds: readonly string[];
  readonly alternatives: readonly Alternative[];
  readonly faults: readonly AlignmentFault[];
  /** The first version by which it is provisional; null: it is settled. What was signed before stays signed. */
  readonly provisionalSince: JudgingVersion | null;
  /** What stands around a settled base; null where nothing does, or the base is not settled. */
  readonly around: StageFrame | null;
}

export function searched(candidates: readonly Candidate[], asked: BaseQuestion): Searched {
  const { readings } = asked;
  const choice = trustedBase(candidates, () =>
    readings.map(({ measured, point }) => ({ measured, limits: point.limits })),
  );
  const { base, movedIds } = choice;
  const provisionally = (fault: AlignmentFault, alternatives: readonly Alternative[] = []): Searched => ({
    base,
    movedIds,
    alternatives,
    faults: [fault],
    provisionalSince: 'since' in fault ? fault.since : '0.1',
    around: null,
  });
  if (!choice.consistent)
    return provisionally({ kind: 'inconsistent', ids: base.members.map(({ id }) => id) });
  const frame = frameAround(base, asked);
  const rivals = rivalsOf(candidates, choice, frame);
  const tie = frame === null ? null : tieOf(choice, rivals, frame, asked);
  const settled = tie === null ? frame : tie.frame;
  const told = settled === null ? [] : storiesOfBase(settled, asked);
  // stories, doubt and ties came with version 0.2: before, rivals alone made a stage provisional, whatever stood around it
  const since = () => (rivals.length > 0 || rivalZones(candidates, choice).length > 0 ? '0.1' : '0.2');
  if (told.length > 0 || (tie === null && rivals.length > 0))
    return provisionally({ kind: 'ambiguous', since: since() }, [
      ...rivals.map((rival) =>
        rivalTold(candidates, rival, choice.alternatives.includes(rival) ? 'points' : 'zones'),
      ),
      ...toldAlternatives(tie ?? choice, told),
    ]);
  const doubt = settled === null ? null : doubtOf(settled);
  if (doubt !== null) return provisionally({ kind: 'doubted', since: since(), ...doubt });
  const { ids } = tie ?? { ids: [] };
  const chosen = tie ?? choice;
  return {
    base: chosen.base,
    movedIds: chosen.movedIds,
    alternatives: [],
    faults: [...movedFaults(chosen.movedIds), ...(ids.length > 0 ? [{ kind: 'one-of', ids } as const] : [])],
    provisionalSince: null,
    around: settled,
  };
}

const movedFaults = (ids: readonly string[]): AlignmentFault[] =>
  ids.length > 0 ? [{ kind: 'moved', ids, kept: false }] : [];

function doubtOf(frame: StageFrame): { groups: SeenGroup[]; ids: readonly string[] } | null {
  const { base, groups, weighing, joined } = frame;
  if (weighing === null || joined === null) return null;
  const doubt = doubted(base, groups, weighing, joined);
  return doubt && { groups: doubt.allOff ? groupsByBase(frame) : [], ids: doubt.offIds };
}

/** Other bases that explain the control points as well by themselves. */
function rivalsOf(candidates: readonly Candidate[], choice: Choice, frame: StageFrame | null): BaseFit[] {
  // stories say of two zones what their own test would say, and witnesses tell better
  const asksForZones = frame === null || frame.weighing === null || choice.movedIds.length > 0;
  const zones = asksForZones
    ? rivalZones(candidates, choice).filter((zone) => !sameMembers(zone, choice.base))
    : [];
  const { alternatives, secondBody } = choice;
  return [
    ...zones,
    ...[...alternatives, ...(secondBody === null ? [] : [secondBody])].filter(
      (rival) => !zones.some((zone) => sameMembers(zone, rival)),
    ),
  ];
}

const rivalTold = (
  candidates: readonly Candidate[],
  { members }: BaseFit,
  kind: Alternative['kind'],
): Alternative => ({
  kind,
  base: members.map(({ id }) => id),
  moved: complement(candidates, members)
    .map(({ id }) => id)
    .sort(),
});
