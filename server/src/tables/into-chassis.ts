import { namePattern } from '@framewright/schemas';
import type { Vec3 } from '../geometry/vector';
import type { Chassis } from '../model/chassis';
import { nameOf, sideOf } from '../model/names';
import { axisOf, orderOf, positionSigns } from '../model/sheet-axes';
import { mmPer } from '../model/units';
import { applyEdits, commentInsertion, entryInsertion, itemInsertion, plainOrQuoted } from '../text/edits';
import { entryOf, isNothing, type TextTree } from '../text/tree';
import { candidateIds } from './named-rows';
import { idsWritten } from './sides';
import type { TableLayout } from './table-layout';
import type { Digits, ReadRow, RefusedRow } from './table-rows';
import { targetDigits, targetDistance } from './target-digits';

/** A point or distance of a table on its way into a body. */
interface BodyPoint {
  readonly id: string;
  readonly digits: Digits;
  readonly source: ReadRow;
}

interface BodySpan {
  readonly from: string;
  readonly to: string;
  readonly digits: string;
  readonly source: ReadRow;
}

interface BodyRows {
  readonly points: readonly BodyPoint[];
  readonly spans: readonly BodySpan[];
  readonly refused: readonly RefusedRow[];
  /** Points that the file has already, with the same numbers. */
  readonly already: readonly string[];
}

/** Sides of one point that differ by less are mirror images, mm. */
const mirroredWithinMm = 0.05;

/** The rows of a table as points and distances of a body. What contradicts the file, or itself, is refused. */
export function bodyRows(rows: readonly ReadRow[], layout: TableLayout, chassis: Chassis): BodyRows {
  const digitsIn = targetDigits(layout, chassis);
  const distanceIn = targetDistance(layout, chassis.unit);
  const points = new Map<string, BodyPoint>();
  const spans: BodySpan[] = [];
  const refused: RefusedRow[] = [];
  const already: string[] = [];
  for (const source of rows) {
    const refuse = (message: string) =>
      refused.push({ row: source.row, sheet: source.sheet, column: null, message, cells: source.cells });
    const id = idOf(source, chassis, layout.names);
    if (!namePattern.test(nameOf(id))) refuse(`${source.name} makes no name: letters, digits and hyphens do`);
    else if (source.value.kind === 'unreachable') refuse(`${id} has no numbers`);
    else if (source.value.kind === 'distance')
      spans.push({
        from: id,
        to: idOf({ name: source.value.to, side: undefined }, chassis, layout.names),
        digits: distanceIn(source.value.digits),
        source,
      });
    else {
      const digits = digitsIn(source.value.digits, sideOf(id));
      const why = whyNoPoint(id, digits, points.get(id), chassis);
      if (why === null) points.set(id, { id, digits, source });
      else if (why === 'already') already.push(id);
      else refuse(why);
    }
  }
  return { points: [...points.values()], spans, refused, already };
}

/** A known id by any way of writing; else the first way that names a side. */
function idOf(
  { name, side }: Pick<ReadRow, 'name' | 'side'>,
  { points }: Chassis,
  names: ReadonlyMap<string, string>,
): string {
  const mapped = (side ? names.get(`${name} ${side}`) : undefined) ?? names.get(name);
  if (mapped !== undefined) return sideOf(mapped) === null && side ? `${mapped}.${side}` : mapped;
  const ids = side === undefined || side === null ? idsWritten(name) : candidateIds(name, side);
  const known = ids.find((id) => points.has(id));
  if (known !== undefined) return known;
  // in a table with a column of sides, an empty cell there is a point of the centre, but for a name that is an id
  if (side === null && !/\.[LR]$/.test(name.trim())) return ids[0];
  return ids.find((id) => sideOf(id) !== null) ?? ids[0];
}

function whyNoPoint(
  id: string,
  digits: Digits,
  before: BodyPoint | undefined,
  chassis: Chassis,
): string | null {
  const { axes, unit } = chassis;
  const width = Number(digits[orderOf(axes)[1]]);
  if (axes.includes('outboard') && sideOf(id) !== null && width < 0)
    return `${id} would lie across the centre plane: this sheet counts widths outboard; if the table counts to the left, say \`axes: [forward, left, up]\` in a layout`;
  if (before !== undefined && digits.join() !== before.digits.join())
    return `${id} stands in row ${before.source.row} with other numbers`;
  const known = chassis.points.get(id);
  if (known === undefined) return null;
  const apart = [0, 1, 2].map((axis) =>
    Math.abs(known.reference[axis] - positionOf(id, digits, chassis)[axis]),
  );
  return Math.max(...apart) <= mirroredWithinMm
    ? 'already'
    : `${id} is in the file already, ${Math.max(...apart).toFixed(1)} mm from there (${unit === 'mm' ? 'file' : 'in mm'})`;
}

/** Where numbers of a sheet are, vehicle axes, mm. */
function positionOf(id: string, digits: Digits, { axes, unit }: Chassis): Vec3 {
  const side = sideOf(id);
  const signs = positionSigns(axes, side === null ? 'centre' : side === 'L' ? 'left' : 'right', side);
  const order = orderOf(axes);
  const mm = (axis: 0 | 1 | 2): number => signs[axis] * Number(digits[order[axis]]) * mmPer[unit];
  return [mm(0), mm(1), mm(2)];
}

/** Lines of `points:`, a name each; mirror images are one position for both sides. */
export function pointLines(points: readonly BodyPoint[], chassis: Chassis): string[] {
  const byId = new Map(points.map((point) => [point.id, point]));
  const names = [...new Set(points.map(({ id }) => nameOf(id)))];
  const written = names.map((name) => `${plainOrQuoted(name)}:`);
  const width = written.reduce((most, { length }) => Math.max(most, length), 0);
  return names.map((name, i) => {
    const centre = byId.get(name);
    const [left, right] = [byId.get(`${name}.L`), byId.get(`${name}.R`)];
    const any = centre ?? left ?? right;
    const position = [
      ...(centre === undefined ? [] : [`centre: ${list(centre)}`]),
      ...sidesOf(left, right, chassis),
    ];
    const more = any === undefined ? [] : moreOf(any.source);
    return `${written[i].padEnd(width)} { ${[...position, ...more].join(', ')} }`;
  });
}

const list = ({ digits }: BodyPoint): string => `[${digits.join(', ')}]`;

function sidesOf(left: BodyPoint | undefined, right: BodyPoint | undefined, chassis: Chassis): string[] {
  if (left !== undefined && right !== undefined && areMirrored(left, right, chassis)) {
    // `both` states the side that widths count towards
    const counted = chassis.axes.find((direction) => axisOf(direction) === 1);
    return [`both: ${list(counted === 'right' ? right : left)}`];
  }
  return [
    ...(left === undefined ? [] : [`left: ${list(left)}`]),
    ...(right === undefined ? [] : [`right: ${list(right)}`]),
  ];
}

function areMirrored(left: BodyPoint, right: BodyPoint, chassis: Chassis): boolean {
  const [a, b] = [left, right].map(({ id, digits }) => positionOf(id, digits, chassis));
  const apart = [a[0] - b[0], a[1] + b[1], a[2] - b[2]].map(Math.abs);
  return Math.max(...apart) <= mirroredWithinMm;
}

/** What an exported table says of a point beside its numbers. */
function moreOf({ more }: ReadRow): string[] {
  return [
    ...(more.part ? [`part: ${plainOrQuoted(more.part, 'flow')}`] : []),
    ...(more.base && /^(true|yes|1|x)$/i.test(more.base) ? ['base: true'] : []),
    ...(more.fixing ? [`fixing: ${plainOrQuoted(more.fixing, 'flow')}`] : []),
    ...(more.uncertainty ? [`uncertainty: ${more.uncertainty}`] : []),
    ...(more.tolerance ? [`tolerance: ${more.tolerance}`] : []),
  ];
}

const spanLine = ({ from, to, digits, source: { more } }: BodySpan): string => {
  const ends = `from: ${plainOrQuoted(from, 'flow')}, to: ${plainOrQuoted(to, 'flow')}`;
  const level = more.level && /^(true|yes|1|x)$/i.test(more.level) ? ', level: true' : '';
  const tolerance = more.tolerance ? `, tolerance: ${more.tolerance}` : '';
  return `{ ${ends}, distance: ${digits}${tolerance}${level} }`;
};

/** A body with these points and distances more; null where its text cannot take them. @param comments below the points */
export function chassisWithRows(
  tree: TextTree,
  chassis: Chassis,
  { points, spans }: Pick<BodyRows, 'points' | 'spans'>,
  comments: readonly string[],
): string | null {
  const { root } = tree;
  if (root?.kind !== 'map') return null;
  const lines = [...pointLines(points, chassis), ...comments];
  const held = entryOf(root, 'points');
  const added =
    lines.length === 0
      ? []
      : held === undefined
        ? [entryInsertion(tree, root, 'points', ['', ...lines])]
        : [commentInsertion(tree, root, held, lines)];
  const list = entryOf(root, 'spans');
  if (spans.length > 0) {
    const sequence = list?.value?.kind === 'sequence' ? list.value : null;
    if (list !== undefined && !isNothing(list.value) && sequence === null) return null;
    if (list !== undefined && sequence === null) return null;
    added.push(
      ...(sequence === null
        ? [entryInsertion(tree, root, 'spans', ['', ...spans.map((span) => `- ${spanLine(span)}`)])]
        : spans.map((span) => itemInsertion(tree, sequence, [spanLine(span)]))),
    );
  }
  const edits = added.filter((edit) => edit !== null);
  return edits.length === added.length ? applyEdits(tree.text, edits) : null;
}

/** A new chassis file without points, to be filled. @param name of the file, of which the vehicle's is made */
export const newChassis = (name: string): string =>
  `framewright: chassis/1\nvehicle: ${plainOrQuoted(name)}\nunits: mm\npoints:\n`;
