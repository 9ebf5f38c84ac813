import type { Limits } from '../model/axes';
import type { LimitsInForce } from '../model/limits';
import { type PositionKey, positionSigns, type SheetAxes, signAlong, signedBand } from '../model/sheet-axes';
import { figure, mmPer, type Unit } from '../model/units';

/** How a chassis file writes: its unit and axes. */
interface Sheet {
  readonly unit: Unit;
  readonly axes: SheetAxes;
}

const names = ['length', 'width', 'height'] as const;

/** The limits of length, width and height as a chassis file writes them; `key`: under which its position stands. */
export function sheetBands(
  limits: LimitsInForce,
  { axes }: Sheet,
  key: PositionKey = 'both',
): [Limits, Limits, Limits] {
  const [length, width, height] = limits;
  const side = key === 'left' ? 'L' : key === 'right' ? 'R' : null;
  return [
    signedBand(signAlong(axes, 0, null), length),
    key === 'both' ? width.both : signedBand(positionSigns(axes, key, side)[1], width[key]),
    signedBand(signAlong(axes, 2, null), height),
  ];
}

const number = (mm: number, unit: Unit): string => String(Number(figure(mm / mmPer[unit], 5)));

const isEachWay = ([low, high]: Limits): boolean => Math.abs(low + high) < 1e-9;

const written = (band: Limits, unit: Unit): string =>
  isEachWay(band) ? number(band[1], unit) : `[${number(band[0], unit)}, ${number(band[1], unit)}]`;

/** A tolerance as it is typed: `3`, or `{ length: 3, width: [-2, 4], height: 3 }`. */
export function typedTolerance(bands: readonly [Limits, Limits, Limits], unit: Unit): string {
  const [length, width, height] = bands.map((band) => written(band, unit));
  return length === width && width === height && isEachWay(bands[0])
    ? length
    : `{ length: ${length}, width: ${width}, height: ${height} }`;
}

/** Where one is wider than the other: `length ±5 (there ±3)`. */
export function widerPhrases(
  now: readonly [Limits, Limits, Limits],
  before: readonly [Limits, Limits, Limits],
  unit: Unit,
): string[] {
  const said = (band: Limits) => (isEachWay(band) ? `±${number(band[1], unit)}` : written(band, unit));
  return names.flatMap((name, k) =>
    now[k][0] < before[k][0] - 1e-6 || now[k][1] > before[k][1] + 1e-6
      ? [`${name} ${said(now[k])} (there ${said(before[k])})`]
      : [],
  );
}
