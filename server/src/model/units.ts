/** Lengths inside the program are mm; a file may be written in inches (1 inch = 25.4 mm exactly). */

export type Unit = 'mm' | 'inch';

export const mmPer: Record<Unit, number> = { mm: 1, inch: 25.4 };

/** What stands behind a figure. */
export const unitWord: Record<Unit, string> = { mm: 'mm', inch: 'in' };

export const degreesPerRadian = 180 / Math.PI;

/** A length in mm as the file's unit shows it: `12.3 mm`, `0.484 in`. Never a negative zero. */
export const lengthText = (mm: number, unit: Unit): string => `${lengthFigure(mm, unit)} ${unitWord[unit]}`;

/** The same without the unit. */
export const lengthFigure = (mm: number, unit: Unit): string =>
  figure(mm / mmPer[unit], unit === 'mm' ? 1 : 3);

/**
 * A number with fixed decimals and no negative zero. The rounding noise of a computation, which differs with the order of points
 * and the machine, is taken off first: it would decide how a value half-way between two figures is written.
 */
export const figure = (value: number, decimals: number): string => {
  const text = Number(value.toFixed(decimals + 6)).toFixed(decimals);
  return text.startsWith('-') && Number(text) === 0 ? text.slice(1) : text;
};
