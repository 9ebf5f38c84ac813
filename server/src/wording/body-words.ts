import type { Quantity } from '../inspection/alignment/displacements';
import { coverage95 } from '../inspection/alignment/verdict';
import type { Body, Condition, Zone } from '../inspection/shape/body';
import { lengthText, type Unit } from '../model/units';
import { certaintyText, degreesText, directionWord, turnWord } from './wording';

/** `mash 9.0 mm rearward (±1.0 at 95 %)`: one phrase for each condition of a zone that was found real. */
const conditionPhrases = (zone: Zone, unit: Unit): string[] =>
  zone.conditions.map((condition) => phrase(condition, zone, unit));

/** `front: mash …, diamond …; rear: sag …`; null where nothing is found. */
export function bodyPhrase({ front, rear }: Body, unit: Unit): string | null {
  const zone = (name: string, each: Zone | null) =>
    each === null || each.conditions.length === 0
      ? []
      : [`${name}: ${conditionPhrases(each, unit).join(', ')}`];
  const zones = [...zone('front', front), ...zone('rear', rear)];
  return zones.length === 0 ? null : zones.join('; ');
}

function phrase(condition: Condition, zone: Zone, unit: Unit): string {
  const certain = ({ uncertaintyMm }: Quantity) => `(${certaintyText(uncertaintyMm, unit)} at 95 %)`;
  const moved = (axis: 0 | 1 | 2, quantity: Quantity) =>
    `${lengthText(Math.abs(quantity.mm), unit)} ${directionWord(axis, quantity.mm)} ${certain(quantity)}`;
  switch (condition) {
    case 'mash':
      return `mash ${moved(0, zone.length)}`;
    case 'sidesway':
      return `sidesway ${moved(1, zone.sideways)}`;
    case 'sag':
    case 'high':
      return `${condition} ${moved(2, zone.height)}`;
    case 'diamond': {
      const left = `left side ${lengthText(Math.abs(zone.diamond.mm), unit)} ${directionWord(0, zone.diamond.mm)} of the right`;
      return `diamond, ${left} ${certain(zone.diamond)}`;
    }
    case 'twist': {
      const { angleRad, uncertaintyRad } = zone.twist!;
      return `twist ${degreesText(Math.abs(angleRad))}, ${turnWord.twist(angleRad)} (±${degreesText(coverage95 * uncertaintyRad)} at 95 %)`;
    }
  }
}
