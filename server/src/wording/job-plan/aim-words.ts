import { length } from '../../geometry/vector';
import type { PlannedHook } from '../../inspection/pulls/plan-hooks';
import { moveAlong } from '../../inspection/pulls/plan-moves';
import type { Aim } from '../../inspection/pulls/spring-back';
import { lengthText, type Unit } from '../../model/units';
import { pullsText } from '../spring-back-words';
import { certaintyText, lengthRangeText, shortList } from '../wording';

/** How far a chain takes its point. @param isCouple two chains pull on the part */
export function aimText({ move, aim, direction }: PlannedHook, isCouple: boolean, unit: Unit): string {
  const needed = `${lengthText(length(move.moveMm), unit)} ${certaintyText(moveAlong(move, direction).uncertaintyMm, unit)}`;
  if (aim === null) return `${move.id} stays at its mark: take up that chain only as far as it needs`;
  if (aim.kind === 'none') return `${move.id} ${needed} to its mark, not past it${noAim[aim.why]}`;
  const past = lengthRangeText(aim.recoveryMm[0], aim.recoveryMm[1], unit);
  const seen = `as came back on ${pullsText(aim.pulls)} ${aim.relieved ? 'relieved before release' : 'not relieved; relieved, less comes back, so stop short'}`;
  const carried =
    aim.carriedFrom.length === 0
      ? ''
      : `, carried along the part from ${shortList(aim.carriedFrom)} by the distance from the bend`;
  return (
    `${move.id} ${lengthRangeText(aim.fromMm, aim.toMm, unit)} under load, never farther: ${needed} to its mark and ${past} ` +
    `past it, ${seen}${carried}${isCouple ? '; a couple may come back otherwise' : ''}`
  );
}

const noAim: Record<Extract<Aim, { kind: 'none' }>['why'], string> = {
  'not-seen': '',
  elsewhere: ': how far it springs back was seen at other points only; read this one under load and after',
  'no-set': ': the pulls so far left nothing behind and do not tell how far to go',
  unlikely: ': the spring-back seen so far cannot be right; check the readings under load',
};
