import { type Axis, axes } from '../model/axes';
import type { Chassis, Limits, Point, Span } from '../model/chassis';
import { sideOf } from '../model/names';
import { type Sign, signedBand } from '../model/sheet-axes';
import { mmPer } from '../model/units';
import type { Written } from './written-cells';

/** The reference table of a body: points, each side by itself, then distances. Numbers count as its sheet does, in its unit. */
interface Column {
  readonly name: string;
  point?(point: Point, chassis: Chassis): Written;
  span?(span: Span, chassis: Chassis): Written;
}

const coordinate = (axis: Axis) => (point: Point, chassis: Chassis) =>
  point.coordinates.uri === chassis.uri && isAsTyped(point, chassis)
    ? { digits: point.coordinates.typed?.[axis].source ?? '' }
    : inUnit(point.sheetSigns[axis] * point.reference[axis], chassis);

/** The digits count as the sheet does, but where one position for both sides counts to one of them. */
const isAsTyped = ({ coordinates: { typed }, reference, sheetSigns }: Point, chassis: Chassis): boolean =>
  typed?.every(
    ({ source }, k) =>
      /^-?\d+(\.\d+)?$/.test(source) &&
      Math.abs(Number(source) * mmPer[chassis.unit] - sheetSigns[at(k)] * reference[at(k)]) < 1e-6,
  ) ?? false;

const at = (k: number): Axis => (k === 1 || k === 2 ? k : 0);

const inUnit = (mm: number, { unit }: Chassis): number => Number((mm / mmPer[unit]).toFixed(6)) || 0;

/** In the language: one number each way, or `[low, high]` of each axis. */
function pointTolerance({ limits, sheetSigns }: Point, chassis: Chassis): Written {
  const [length, width, height] = axes.map((axis) => toleranceText(limits[axis], sheetSigns[axis], chassis));
  return length === width && width === height && !length.startsWith('[')
    ? { digits: length }
    : `{ length: ${length}, width: ${width}, height: ${height} }`;
}

/** One number for all axes; three as they stand in the file. */
function pointUncertainty({ uncertaintyMm, uncertaintyByAxisMm }: Point, chassis: Chassis): Written {
  if (uncertaintyByAxisMm === null) return uncertaintyMm === 0 ? null : inUnit(uncertaintyMm, chassis);
  const [length, width, height] = uncertaintyByAxisMm.map((each) => inUnit(each, chassis));
  return `{ length: ${length}, width: ${width}, height: ${height} }`;
}

function toleranceText(limits: Limits, sign: Sign, chassis: Chassis): string {
  const [low, high] = signedBand(sign, limits).map((mm) => inUnit(mm, chassis));
  return low === 0 - high ? String(high) : `[${low}, ${high}]`;
}

/** A column more is an entry more. */
const columns: readonly Column[] = [
  { name: 'id', point: ({ id }) => id, span: ({ from }) => from },
  { name: 'to', span: ({ to }) => to },
  { name: 'side', point: ({ id }) => sideOf(id) },
  { name: 'length', point: coordinate(0) },
  { name: 'width', point: coordinate(1) },
  { name: 'height', point: coordinate(2) },
  { name: 'distance', span: ({ distanceMm }, chassis) => inUnit(distanceMm, chassis) },
  // a part's name has no side in the language
  { name: 'part', point: ({ part }) => part?.replace(/\.[LR]$/, '') ?? null },
  { name: 'base', point: ({ base }) => (base ? 'true' : null) },
  { name: 'fixing', point: ({ fixing }) => fixing },
  {
    name: 'uncertainty',
    point: pointUncertainty,
  },
  {
    name: 'tolerance',
    point: pointTolerance,
    span: ({ limits }, chassis) => toleranceText(limits, 1, chassis),
  },
  { name: 'level', span: ({ level }) => (level ? 'true' : null) },
];

export const chassisColumnNames = columns.map(({ name }) => name);

export function chassisTable(chassis: Chassis, chosen: readonly string[]): readonly (readonly Written[])[] {
  const kept = chosen.flatMap((name) => columns.filter((column) => column.name === name));
  return [
    ...[...chassis.points.values()].map((point) =>
      kept.map((column) => column.point?.(point, chassis) ?? null),
    ),
    ...chassis.spans.map((span) => kept.map((column) => column.span?.(span, chassis) ?? null)),
  ];
}
