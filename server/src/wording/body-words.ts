import type { Quantity } from '../inspection/alignment/displacements';
import type { JudgedPoint } from '../inspection/alignment/points';
import type { JudgedSpan } from '../inspection/alignment/spans';
import { coverage95 } from '../inspection/alignment/verdict';
import type { Body, Zone } from '../inspection/shape/body';
import { type Condition, isReal, toldFirst } from '../inspection/shape/body-conditions';
import { crossedPairs } from '../inspection/shape/crossed';
import type { Axis } from '../model/chassis';
import { lengthFigure, lengthText, type Unit } from '../model/units';
import { certaintyText, degreesText, directionWord, shortList, turnWord } from './wording';

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

const axisOf = { length: 0, sideways: 1, height: 2 } as const satisfies Record<string, Axis>;

const certainText = ({ uncertaintyMm }: Quantity, unit: Unit): string =>
  `${certaintyText(uncertaintyMm, unit)} at 95 %`;

/** `20.0 mm right at the tips (±1.2 at 95 %; mean 9.3 mm)`: at the zone's end, where the damage is largest and is read. */
function movedPhrase(key: keyof typeof axisOf, zone: Zone, unit: Unit): string {
  const axis = axisOf[key];
  const [tips, mean] = [zone.tips[key], zone[key]];
  const moved = ({ mm }: Quantity) => `${lengthText(Math.abs(mm), unit)} ${directionWord(axis, mm)}`;
  if (zone.tips.isAll || moved(tips) === moved(mean)) return `${moved(mean)} (${certainText(mean, unit)})`;
  const [first, other] = toldFirst(tips, mean) === tips ? [tips, mean] : [mean, tips];
  const besides = first.mm * other.mm < 0 ? moved(other) : lengthText(Math.abs(other.mm), unit);
  return first === tips
    ? `${moved(tips)} at the tips (${certainText(tips, unit)}; mean ${besides})`
    : `${moved(mean)} in the mean (${certainText(mean, unit)}; ${besides} at the tips)`;
}

/** `: left side 31.2 mm right, right side 0.2 mm right`: where the two sides differ at the tips, their mean is the place of neither. */
function sidesPhrase(axis: Axis, { tips }: Zone, unit: Unit): string {
  const { left, right, apart } = tips.sides[axis];
  if (!isReal(apart)) return '';
  const side = ({ mm }: Quantity) =>
    Number(lengthFigure(Math.abs(mm), unit)) === 0
      ? 'in place'
      : `${lengthText(Math.abs(mm), unit)} ${directionWord(axis, mm)}`;
  return `: left side ${side(left)}, right side ${side(right)}`;
}

function phrase(condition: Condition, zone: Zone, unit: Unit): string {
  const { tips } = zone;
  switch (condition) {
    case 'mash':
      return `mash ${movedPhrase('length', zone, unit)}${zone.conditions.includes('diamond') ? '' : sidesPhrase(0, zone, unit)}`;
    case 'left-mash':
    case 'right-mash': {
      const side = condition === 'left-mash' ? 'left' : 'right';
      const mashed = tips.sides[0][side];
      return `${side} side mashed ${lengthText(Math.abs(mashed.mm), unit)} (${certainText(mashed, unit)})`;
    }
    case 'sidesway':
      return `sidesway ${movedPhrase('sideways', zone, unit)}${sidesPhrase(1, zone, unit)}`;
    case 'sag':
    case 'high':
      return `${condition} ${movedPhrase('height', zone, unit)}${sidesPhrase(2, zone, unit)}`;
    case 'diamond': {
      const left = `left side ${lengthText(Math.abs(zone.diamond.mm), unit)} ${directionWord(0, zone.diamond.mm)} of the right`;
      return `diamond, ${left} (${certainText(zone.diamond, unit)})`;
    }
    case 'twist': {
      const { angleRad, uncertaintyRad } = zone.twist!;
      return `twist ${degreesText(Math.abs(angleRad))}, ${turnWord.twist(angleRad)} (±${degreesText(coverage95 * uncertaintyRad)} at 95 %)`;
    }
  }
}

/** `out of square: a.L to b.R is 8.2 mm longer than the distance that crosses it, a.R to b.L (±1.2 at 95 %)`; null where nothing is. */
export function crossedPhrase(spans: readonly JudgedSpan[], unit: Unit): string | null {
  const pairs = [...crossedPairs(spans)].sort((a, b) => b.byMm - a.byMm);
  const told = pairs.map(({ longer, shorter, byMm, uncertaintyMm }) => {
    const asOnSheet = Math.abs(longer.referenceMm - shorter.referenceMm) < 0.05;
    const sheet = asOnSheet ? '' : '; the difference that they have on the sheet is taken off';
    return (
      `${longer.from} to ${longer.to} is ${lengthText(byMm, unit)} longer than the distance that crosses it, ` +
      `${shorter.from} to ${shorter.to} (${certaintyText(uncertaintyMm, unit)} at 95 %${sheet})`
    );
  });
  return told.length === 0 ? null : `out of square: ${shortList(told, 2)}`;
}

/** What distances alone leave open of the heights of a stage; null where they tell them. */
export function heightsUnseenPhrase(points: readonly JudgedPoint[]): string | null {
  const unseen = points.filter(({ deviation }) => deviation[2] === null).map(({ id }) => id);
  if (unseen.length === 0) return null;
  const one = unseen.length === 1;
  return (
    `distances alone do not show the height of ${shortList(unseen)}: whether ${one ? 'it is' : 'they are'} high, low or twisted is not known. ` +
    `Read ${one ? 'it' : 'them'} in three numbers`
  );
}
