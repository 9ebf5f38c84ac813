import { countsAsUsual, type Sign, signed, type Way } from '../model/sheet-axes';
import { figure, mmPer, type Unit, unitWord } from '../model/units';

/**
 * Places along the car and its parts as the sheet that the job names has them, so that a person finds them there. Given in vehicle
 * axes, mm. Where a sheet counts otherwise than usual, a word says where the place is.
 */
type Band = readonly [number, number];

const zeroWords = [
  ['forward of zero', 'rearward of zero'],
  ['left of zero', 'right of zero'],
  ['above zero', 'below zero'],
] as const;

/** `rearward of zero`; null where it goes without saying. */
function zeroWord(mm: number, way: Way, unit: Unit): string | null {
  if (countsAsUsual(way) || Number(placeFigure(mm, way, unit)) === 0) return null;
  return zeroWords[way.along][mm < 0 ? 1 : 0];
}

const inBrackets = (word: string | null): string => (word === null ? '' : ` (${word})`);

/** The bare number, to the millimetre, as a file has it: `2450`. */
export const placeFigure = (mm: number, { sheetSign }: Pick<Way, 'sheetSign'>, unit: Unit): string =>
  String(Number(figure(signed(sheetSign, mm) / mmPer[unit], unit === 'mm' ? 0 : 1)));

const shownFigure = (mm: number, { sheetSign }: Way, unit: Unit): string =>
  figure(signed(sheetSign, mm) / mmPer[unit], unit === 'mm' ? 0 : 1);

/** To the millimetre: `3012 mm`, `2450 mm (rearward of zero)`. */
export const placeText = (mm: number, way: Way, unit: Unit): string =>
  `${shownFigure(mm, way, unit)} ${unitWord[unit]}${inBrackets(zeroWord(mm, way, unit))}`;

/** Where the unit is said elsewhere: `3012`, `2450 (rearward of zero)`. */
export const barePlaceText = (mm: number, way: Way, unit: Unit): string =>
  `${shownFigure(mm, way, unit)}${inBrackets(zeroWord(mm, way, unit))}`;

/** Two places in the order of the sheet; both with the word where they do not share it. */
function bandText(band: Band, way: Way, unit: Unit, joint: string): string {
  const [low, high] = inSheetOrder(way.sheetSign, band);
  const [first, second] = [zeroWord(low, way, unit), zeroWord(high, way, unit)];
  const isShared = first === second || first === null;
  const before = isShared ? shownFigure(low, way, unit) : placeText(low, way, unit);
  return `${before}${joint}${placeText(high, way, unit)}`;
}

/** Still in vehicle axes: the one that is low on the sheet comes first. */
const inSheetOrder = (sign: Sign, [low, high]: Band): Band => (sign === 1 ? [low, high] : [high, low]);

/** `2251 and 2320 mm`. */
export const andText = (band: Band, way: Way, unit: Unit): string => bandText(band, way, unit, ' and ');

/** `between 2251 and 2320 mm`. */
export const betweenText = (band: Band, way: Way, unit: Unit): string =>
  `between ${andText(band, way, unit)}`;

/** `2251 to 2320 mm`. */
export const fromToText = (band: Band, way: Way, unit: Unit): string => bandText(band, way, unit, ' to ');

/** `1760–3012 mm`. */
export const rangeText = (band: Band, way: Way, unit: Unit): string => bandText(band, way, unit, '–');

/** `2298 mm (between 2251 and 2320 mm at 95 %)`: a place that is known so well. */
export function doubtfulPlaceText(mm: number, band: Band, way: Way, unit: Unit): string {
  const word = zeroWord(mm, way, unit);
  // said once where it holds for all three
  const isShared = word !== null && band.every((end) => zeroWord(end, way, unit) === word);
  const told = betweenText(band, way, unit);
  const between = `${isShared ? told.replace(inBrackets(word), '') : told} at 95 %`;
  return `${shownFigure(mm, way, unit)} ${unitWord[unit]} (${word === null ? '' : `${word}; `}${between})`;
}
