import type { Line, Solid, SolidPoint } from '@framewright/schemas/wire';
import { onSheet, type Projection } from './look';

/** How a line looks: its colour by role, its width and dashes in px. */
export interface Stroke {
  readonly colour: 'ink' | 'quiet' | 'accent';
  readonly width: number;
  readonly opacity: number;
  readonly dash: readonly [number, number] | null;
}

export type LineKind =
  | 'grid'
  | 'zero'
  | 'centreline'
  | 'part'
  | 'measured'
  | 'earlier'
  | 'arrow'
  | 'arrow-undecided'
  | 'arrow-outside'
  | 'arrow-cut'
  | 'arrow-partial';

/** The same roles as in the flat drawing; what is outside is told by width and its mark as well as by colour. */
export const strokes: Readonly<Record<LineKind, Stroke>> = {
  grid: { colour: 'quiet', width: 1, opacity: 0.25, dash: null },
  zero: { colour: 'quiet', width: 1.2, opacity: 0.9, dash: [14, 4] },
  centreline: { colour: 'quiet', width: 1.2, opacity: 0.9, dash: [24, 6] },
  part: { colour: 'quiet', width: 1.2, opacity: 0.6, dash: null },
  measured: { colour: 'ink', width: 1.2, opacity: 1, dash: [6, 3] },
  earlier: { colour: 'quiet', width: 1.2, opacity: 1, dash: [2, 3] },
  arrow: { colour: 'quiet', width: 1.2, opacity: 1, dash: null },
  'arrow-undecided': { colour: 'ink', width: 1.6, opacity: 1, dash: [4, 2] },
  'arrow-outside': { colour: 'accent', width: 2.6, opacity: 1, dash: null },
  'arrow-cut': { colour: 'accent', width: 2.6, opacity: 1, dash: [16, 5] },
  'arrow-partial': { colour: 'ink', width: 1.6, opacity: 1, dash: [1.5, 2.5] },
};

function arrowKind({ state, cut, partial }: SolidPoint): LineKind {
  if (partial) return 'arrow-partial';
  if (cut) return 'arrow-cut';
  return state === 'outside' || state === 'undecided' ? `arrow-${state}` : 'arrow';
}

/** Every line of the picture, by its kind. */
export function linesOf(solid: Solid): Map<LineKind, Line[]> {
  const lines = new Map<LineKind, Line[]>();
  const add = (kind: LineKind, ...more: readonly Line[]) => {
    const known = lines.get(kind);
    if (known) known.push(...more);
    else if (more.length > 0) lines.set(kind, [...more]);
  };
  for (const { kind, line } of solid.ground) add(kind, line);
  for (const part of solid.parts) {
    add('part', ...part.lines);
    add('measured', ...part.measured);
  }
  for (const point of solid.points) {
    if (point.earlier) add('earlier', [point.at, point.earlier]);
    if (point.tip) add(arrowKind(point), [point.at, point.tip]);
  }
  return lines;
}

export interface DrawnMark {
  readonly point: SolidPoint;
  readonly x: number;
  readonly y: number;
  /** Head of its arrow as path data; null where it is too short to have one. */
  readonly head: string | null;
}

export const marksOf = ({ points }: Solid, projection: Projection): DrawnMark[] =>
  points.map((point) => {
    const [x, y] = onSheet(projection, point.at);
    return { point, x, y, head: point.tip && headPath([x, y], onSheet(projection, point.tip)) };
  });

const headLength = 8;
const round = (value: number): number => Math.round(value * 10) / 10;

function headPath(from: readonly [number, number], to: readonly [number, number]): string | null {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const size = Math.hypot(dx, dy);
  if (size < 4) return null;
  const [ux, uy] = [dx / size, dy / size];
  const head = Math.min(headLength, 0.6 * size);
  const corner = (aside: number): string =>
    `${round(to[0] - ux * head - uy * aside)} ${round(to[1] - uy * head + ux * aside)}`;
  return `M${round(to[0])} ${round(to[1])}L${corner(head * 0.42)}L${corner(-head * 0.42)}z`;
}

/** A name with the line that leads to its mark, px; `x`, `y`: the left end of its base line. */
export interface DrawnLabel {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

/** Room of a line of a name, px, and of a letter on average. */
const lineHeight = 14;
const letterWidth = 6.2;
const mostLetters = 48;

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Where a name may stand, from near its mark to farther off: right, left, above, below. */
const offsets = [14, 24, 38, 56, 80].flatMap((far) => [
  [far, 0],
  [-far, 0],
  [far * 0.7, -far * 0.8],
  [far * 0.7, far * 0.8],
  [-far * 0.7, -far * 0.8],
  [-far * 0.7, far * 0.8],
]);

/**
 * The names of the points that have one, beside their marks: none over another or over a mark that must be seen, none cut. For which
 * there is no room has none; it stands in the table.
 */
export function labelsOf(marks: readonly DrawnMark[], { size }: Projection): DrawnLabel[] {
  const loud = marks
    .filter(({ point: { state } }) => state === 'outside' || state === 'undecided')
    .map(({ x, y }): Box => ({ left: x - 6, right: x + 6, top: y - 6, bottom: y + 6 }));
  const placed: { readonly label: DrawnLabel; readonly box: Box }[] = [];
  const wanted = marks.filter(
    ({ point, x, y }) => point.named && x >= 0 && x <= size.width && y >= 0 && y <= size.height,
  );
  for (const { point, x, y } of wanted) {
    const letters = [...point.id];
    const id = letters.length > mostLetters ? `${letters.slice(0, mostLetters - 1).join('')}…` : point.id;
    const width = letterWidth * [...id].length + 4;
    for (const [dx, dy] of offsets) {
      const left = dx > 0 ? x + dx : x + dx - width;
      const middle = y + dy;
      const box = {
        left,
        right: left + width,
        top: middle - lineHeight / 2,
        bottom: middle + lineHeight / 2,
      };
      if (left < 0 || box.right > size.width || box.top < 0 || box.bottom > size.height) continue;
      if (loud.some((each) => overlap(each, box)) || placed.some((each) => overlap(each.box, box))) continue;
      const label = {
        id,
        x: left + 2,
        y: middle + 4,
        from: [x, y] as const,
        to: [dx > 0 ? left : box.right, middle] as const,
      };
      placed.push({ label, box });
      break;
    }
  }
  return placed.map(({ label }) => label);
}
