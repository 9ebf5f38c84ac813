import type { Vec3 } from '../geometry/vector';
import type { Position, Reference } from '../inspection/cars/references';
import type { Chassis } from '../model/chassis';
import { dayOf } from '../model/dates';
import { nameOf, type Side } from '../model/names';
import { axisOf, positionSigns } from '../model/sheet-axes';
import { mmPer } from '../model/units';
import { plainOrQuoted } from '../text/edits';
import { apartText } from '../wording/reference-words';

/** Reference points from cars as rows of a chassis file. */

type Sheet = Pick<Chassis, 'axes' | 'unit'>;

const sides: Record<Position['key'], Side | null> = { both: 'L', left: 'L', right: 'R', centre: null };

/** `[1034.2, 612.3, 700.1]`, as the sheet counts. */
export function positionText({ key, over: { at } }: Position, { axes, unit }: Sheet): string {
  const signs = positionSigns(axes, key, sides[key]);
  const decimals = unit === 'mm' ? 1 : 3;
  const numbers = axes.map((direction) => {
    const axis = axisOf(direction);
    // no negative zero
    return ((signs[axis] * at[axis]) / mmPer[unit]).toFixed(decimals).replace(/^-(0\.0+)$/, '$1');
  });
  return `[${numbers.join(', ')}]`;
}

/** Rounded up: what is written is not better known than what was found. */
export function uncertaintyText(uncertainty: Vec3, { unit }: Sheet): string {
  const decimals = unit === 'mm' ? 2 : 4;
  const step = 10 ** decimals;
  const [length, width, height] = uncertainty.map((mm) =>
    String(Math.ceil((mm / mmPer[unit]) * step - 1e-9) / step),
  );
  return length === width && width === height
    ? length
    : `{ length: ${length}, width: ${width}, height: ${height} }`;
}

export function sourceText({ from, date }: Pick<Reference, 'from' | 'date'>): string {
  const reference = plainOrQuoted(from.join(', '), 'flow');
  const day = date !== null && /^\d{4}-\d{2}-\d{2}/.test(date) ? `, date: ${dayOf(date)}` : '';
  return `{ kind: donor, reference: ${reference}${day} }`;
}

/** The row of a new point; above it what its sides differ by, and that nothing shows the metal there to be sound. */
export function referenceRow(reference: Reference, chassis: Sheet, width: number): string[] {
  const { name, positions, uncertainty, part, apart, unproven } = reference;
  const facts = [
    ...positions.map((position) => `${position.key}: ${positionText(position, chassis)}`),
    ...(part === null ? [] : [`part: ${plainOrQuoted(nameOf(part), 'flow')}`]),
    `uncertainty: ${uncertaintyText(uncertainty, chassis)}`,
    `source: ${sourceText(reference)}`,
  ];
  return [
    ...(apart === null
      ? []
      : [`# left and right differ by ${apartText(apart, chassis.unit)}: which one is off is not known`]),
    ...(unproven.length === 0
      ? []
      : [`# unproven: nothing that ${unproven.join(', ')} read shows the metal there to be sound`]),
    `${`${plainOrQuoted(name)}:`.padEnd(width)} { ${facts.join(', ')} }`,
  ];
}
