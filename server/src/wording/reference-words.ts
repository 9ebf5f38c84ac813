import type { Vec3 } from '../geometry/vector';
import type { Combined } from '../inspection/cars/combined';
import {
  beyondLimits,
  type Compared,
  disagreeing,
  type LeftOut,
  type Reference,
} from '../inspection/cars/references';
import type { Axis, Point } from '../model/chassis';
import type { Side } from '../model/names';
import { lengthFigure, type Unit, unitWord } from '../model/units';
import { axisNames, certaintyText, listPhrase, movePhrase } from './wording';

/** What is said of reference points from cars. */

const three = [0, 1, 2] as const;

const certainties = (uncertainty: Vec3, unit: Unit): string =>
  `${three.map((k) => certaintyText(uncertainty[k], unit)).join(' ')} ${unitWord[unit]}`;

/** Of a name that is given: how well, from how many cars, and what is not known. */
export function referenceLines(reference: Reference, unit: Unit): string[] {
  const { name, positions, uncertainty, apart, part, from, unproven } = reference;
  const lines = reference.leftOut.map((each) => leftOutText(each, unit));
  if (positions.length === 0) return [`${name}: no reference`, ...indented(lines)];
  const keys = positions.map(({ key }) => key).join(' and ');
  lines.unshift(
    ...positions.map(({ over }) => scatterText(over, unit)).filter((line, i, all) => all.indexOf(line) === i),
  );
  if (apart !== null)
    lines.push(`left and right differ by ${apartText(apart, unit)}: which one is off is not known`);
  if (unproven.length > 0)
    lines.push(
      part === null
        ? `unproven: its part is not known, and ${listPhrase(unproven)} read nothing that shows the metal there to be sound`
        : `unproven: of ${part} ${listPhrase(unproven)} read no other point that has a reference, so nothing shows the part to be sound`,
    );
  return [
    `${name}: ${keys}, ${certainties(uncertainty, unit)} (length, width, height; 95 %), from ${listPhrase(from)}`,
    ...indented(lines),
  ];
}

/** Of a name that is not given: a bent part looks just so. */
export const doubtfulText = (name: string, apart: NonNullable<Reference['apart']>, unit: Unit): string =>
  `${name}: left and right differ by ${apartText(apart, unit)}, and nothing shows the metal there to be sound: name it in --points if you know that it is`;

const indented = (lines: readonly string[]): string[] => lines.map((line) => `  ${line}`);

function scatterText({ cars, between }: Combined, unit: Unit): string {
  if (between === null)
    return 'one car: how far cars scatter here is not known, and taken as the chassis file states it';
  const figures = three.map((k) => lengthFigure(between[k], unit)).join(' ');
  return `${cars} cars scatter here by ${figures} ${unitWord[unit]} (standard)`;
}

/** On the axes where it shows. */
export function apartText({ at, uncertainty }: Pick<Combined, 'at' | 'uncertainty'>, unit: Unit): string {
  const telling = three.filter((k) => Math.abs(at[k]) > 1.96 * uncertainty[k]);
  const largest = three.reduce((a, b) => (Math.abs(at[b]) > Math.abs(at[a]) ? b : a));
  const axes: readonly Axis[] = telling.length > 0 ? telling : [largest];
  return listPhrase(
    axes.map(
      (k) =>
        `${lengthFigure(Math.abs(at[k]), unit)} ${certaintyText(uncertainty[k], unit)} ${unitWord[unit]} in ${axisNames[k]}`,
    ),
  );
}

function leftOutText({ car, id, proof }: LeftOut, unit: Unit): string {
  switch (proof.kind) {
    case 'moved': {
      const by = proof.by.map(
        ({ id: other, deviation, point }) => `${other} ${offText(deviation, point.side, unit)}`,
      );
      return `${id} of ${car} is left out: the metal there has moved (${listPhrase(by)})`;
    }
    case 'in-question':
      return `${id} of ${car} is left out: ${proof.part} was damaged, pulled or renewed on that car`;
    case 'unproven':
      return `${id} of ${car} is left out: its part is in the scope of that job, and nothing shows it to be sound`;
  }
}

/** The axis on which it stands off most. */
function offText(deviation: readonly (number | null)[], side: Side | null, unit: Unit): string {
  const largest = three.reduce((a, b) => (Math.abs(deviation[b] ?? 0) > Math.abs(deviation[a] ?? 0) ? b : a));
  return `is ${movePhrase(largest, deviation[largest] ?? 0, side, unit)}`;
}

/** A point that the file has already. */
export function comparedText(compared: Compared, unit: Unit): string {
  const { point, cars, beforeRepair } = compared;
  const off = disagreeing(compared);
  const who = `${cars === 1 ? '1 car' : `${cars} cars`}${beforeRepair ? ', before the repair' : ''}`;
  const figures = offAxes(compared, off.length === 0 ? three : off, unit);
  return `${point.id} ${off.length === 0 ? 'agrees' : 'does not agree'} with the file: ${figures} (${who})`;
}

type Apart = Pick<Compared, 'point' | 'apart' | 'uncertainty'>;

const offAxes = ({ point, apart, uncertainty }: Apart, axes: readonly Axis[], unit: Unit): string =>
  axes
    .map((k) => `${movePhrase(k, apart[k], point.side, unit)} ${certaintyText(uncertainty[k], unit)}`)
    .join(', ');

/** Off by more than its ± and by more than its limits: the file and the cars speak of two places. */
export const keptText = (off: Apart, unit: Unit): string =>
  `${off.point.id} lies ${offAxes(off, beyondLimits(off), unit)} off the file, more than its ± and its limits: it stays as it is, unless --points names it`;

/** What a point that is written anew loses. */
export function anewText(
  before: readonly Point[],
  { from }: Reference,
  off: readonly Apart[],
  unit: Unit,
): string[] {
  const [{ name, source }] = before;
  const was = source === null ? 'no source' : [source.kind, source.reference].filter(Boolean).join(', ');
  const cars = `${from.length === 1 ? '1 car' : `${from.length} cars`} (${from.join(', ')})`;
  return [
    `${name} is written anew: its source was ${was}, and is ${cars} now`,
    ...off.map(
      (each) =>
        `  ${each.point.id} was ${offAxes(each, beyondLimits(each), unit)} off, more than its ± and its limits: is it the same point?`,
    ),
  ];
}
