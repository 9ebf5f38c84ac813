import type { Line, Solid } from '@framewright/schemas/wire';
import { onSheet, type Projection } from './look';
import {
  type DrawnLabel,
  type DrawnMark,
  type LineKind,
  labelsOf,
  linesOf,
  marksOf,
  strokes,
} from './picture';

export interface Colours {
  readonly ink: string;
  readonly quiet: string;
  readonly accent: string;
  readonly paper: string;
}

const escapes: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
const escaped = (text: string): string => text.replace(/[&<>"']/g, (each) => escapes[each]);
const round = (value: number): number => Math.round(value * 100) / 100 || 0;

/** The lines of one kind as path data. */
export const linePath = (lines: readonly Line[], projection: Projection): string =>
  lines
    .map((line) => line.map((place) => onSheet(projection, place).map(round).join(' ')))
    .map(([from, to]) => `M${from}L${to}`)
    .join('');

/** How a mark is filled and stroked; the shapes are those of the flat drawing. */
export function markLook(state: string): {
  fill: keyof Colours | 'none';
  stroke: keyof Colours | 'none';
  width: number;
  dash: string;
} {
  switch (state) {
    case 'outside':
      return { fill: 'accent', stroke: 'ink', width: 1.2, dash: '' };
    case 'undecided':
      return { fill: 'paper', stroke: 'ink', width: 1.5, dash: '2.4 1.6' };
    case 'unread':
      return { fill: 'quiet', stroke: 'none', width: 0, dash: '' };
    case 'within':
      return { fill: 'paper', stroke: 'quiet', width: 1, dash: '' };
    default:
      return { fill: 'paper', stroke: 'ink', width: 1.4, dash: '' };
  }
}

/** What is seen, as an SVG that stands alone. */
export function solidSvg(solid: Solid, projection: Projection, colours: Colours, title: string): string {
  const { width, height } = projection.size;
  const lines = [...linesOf(solid)].map(([kind, each]) =>
    linesSvg(kind, linePath(each, projection), colours),
  );
  const marks = marksOf(solid, projection);
  const words = [title, captionOf(solid)].filter((each) => each !== '').join(' · ');
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" fill="none" font-family="system-ui, sans-serif" role="img"><title>${escaped(words)}</title><rect width="${width}" height="${height}" fill="${colours.paper}"/>${lines.join('')}${marks.map((mark) => markSvg(mark, solid, colours)).join('')}${labelsOf(
    marks,
    projection,
  )
    .map((label) => labelSvg(label, colours))
    .join('')}<text x="8" y="18" font-size="12" fill="${colours.ink}">${escaped(words)}</text></svg>
`;
}

/** `“after first pull” over “as received” · deviations × 10`, with what must be known first. */
export const captionOf = ({ stage, over, factor, cautions, gridText }: Solid): string =>
  [
    ...cautions,
    ...(stage === null
      ? ['the body alone']
      : [`“${stage}”${over === null ? '' : ` over “${over}”`}`, `deviations × ${factor}`]),
    `grid ${gridText}`,
  ].join(' · ');

function linesSvg(kind: LineKind, path: string, colours: Colours): string {
  const { colour, width, opacity, dash } = strokes[kind];
  const dashes = dash === null ? '' : ` stroke-dasharray="${dash.join(' ')}"`;
  return `<path d="${path}" stroke="${colours[colour]}" stroke-width="${width}" stroke-opacity="${opacity}"${dashes}/>`;
}

function markSvg({ point, x, y, head }: DrawnMark, { symbols }: Solid, colours: Colours): string {
  const { fill, stroke, width, dash } = markLook(point.state);
  const paint = (role: keyof Colours | 'none') => (role === 'none' ? 'none' : colours[role]);
  const tip = head === null ? '' : `<path d="${head}" fill="${paint(headColour(point.state))}"/>`;
  const ring = point.selected ? `<circle r="9" stroke="${colours.ink}" stroke-width="1.6"/>` : '';
  return `${tip}<g transform="translate(${round(x)} ${round(y)})"><title>${escaped(point.text)}</title><path d="${symbols[point.state]}" fill="${paint(fill)}" stroke="${paint(stroke)}" stroke-width="${width}"${dash === '' ? '' : ` stroke-dasharray="${dash}"`}/>${ring}</g>`;
}

export const headColour = (state: string): keyof Colours =>
  state === 'outside' ? 'accent' : state === 'undecided' ? 'ink' : 'quiet';

const labelSvg = ({ id, x, y, from, to }: DrawnLabel, { ink, quiet, paper }: Colours): string =>
  `<path d="M${round(from[0])} ${round(from[1])}L${round(to[0])} ${round(to[1])}" stroke="${quiet}" stroke-width=".7"/><text x="${round(x)}" y="${round(y)}" font-size="11" fill="${ink}" stroke="${paper}" stroke-width="2.5" paint-order="stroke">${escaped(id)}</text>`;
