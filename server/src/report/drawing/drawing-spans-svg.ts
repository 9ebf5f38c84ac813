import { type Markup, markup, px } from '../markup';
import type { DrawnSpan } from './drawing-spans';
import type { Px } from './drawing-views';
import { type Telling, told } from './told';

/** How far from its ends the strokes across a distance stand, and half their length, px. */
const strokeFromEnd = 10;
const halfStroke = 3.5;

/** A distance as the gauge lies: a line from end to end with a stroke across it near each. */
export function spanPath([a, b]: readonly [Px, Px]): string {
  const size = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ux, uy] = [(b[0] - a[0]) / size, (b[1] - a[1]) / size];
  const stroke = ([x, y]: Px, along: number): string => {
    const at = (aside: number) => `${px(x + ux * along - uy * aside)} ${px(y + uy * along + ux * aside)}`;
    return `M${at(-halfStroke)}L${at(halfStroke)}`;
  };
  const line = `M${px(a[0])} ${px(a[1])}L${px(b[0])} ${px(b[1])}`;
  return size < 3 * strokeFromEnd ? line : line + stroke(a, strokeFromEnd) + stroke(b, -strokeFromEnd);
}

export function spanSvg({ from, to, line, ends, state, text }: DrawnSpan, telling: Telling): Markup {
  const path = spanPath(ends);
  const attributes = markup`class="fw-span fw-span-${state}" data-go="${from}" data-to="${to}"${line === null ? null : markup` data-line="${line}"`}`;
  // where it is pointed at, a thin line is easier hit than seen
  const hit = telling === 'label' ? markup`<path class="fw-hit-line" d="${path}"/>` : null;
  return told(telling, attributes, text, markup`${hit}<path d="${path}"/>`);
}
