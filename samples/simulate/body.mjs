import { sum, twisted } from './vector.mjs';

/** How far points of a sound body lie from the sheet: standard and cut, mm on each axis. */
const BUILD_SCATTER = 0.5;
const BUILD_CUT = 1.2;

/**
 * The points of a chassis by id, in vehicle axes [forward, left, up].
 * @param {Array<object>} entries as the files in specs/ list them
 * @returns {Map<string, {id: string, side: ''|'L'|'R', part: string, base: boolean, reference: number[]}>}
 */
export function chassisPoints(entries) {
  const points = new Map();
  const add = (entry, side, [length, width, height]) => {
    const id = side ? `${entry.name}.${side}` : entry.name;
    const reference = [length, side === 'R' ? -width : width, height];
    points.set(id, { id, side, part: entry.part, base: entry.base === true, reference });
  };
  for (const entry of entries) {
    if (entry.centre) add(entry, '', entry.centre);
    const left = entry.left ?? entry.both;
    const right = entry.right ?? entry.both;
    if (left) add(entry, 'L', left);
    if (right) add(entry, 'R', right);
  }
  return points;
}

/**
 * One car as it left the works: every point off the sheet by the build scatter.
 * @returns {(point: object) => number[]} where a point is while the body is sound
 */
export function soundBody(points, normal) {
  const scatter = new Map();
  for (const id of points.keys())
    scatter.set(
      id,
      [0, 1, 2].map(() => normal(BUILD_SCATTER, BUILD_CUT)),
    );
  return (point) => sum(point.reference, scatter.get(point.id));
}

/**
 * The body with damage done to it, in order.
 * @param {(point: object) => number[]} body
 * @param {Array<(point: object, position: number[]) => number[]>} damages
 */
export function damagedBody(body, damages) {
  return (point) => damages.reduce((position, damage) => damage(point, position), body(point));
}

/** Does the point lie on `part` (`front-rail`), or on that side of it (`front-rail.L`)? */
export function isOn(point, part) {
  return point.part === part || (point.side !== '' && `${point.part}.${point.side}` === part);
}

/** Distance past `from`, seen from the middle of the car; 0 on its near side. */
const beyond = (position, from, towards) => Math.max(0, (position[0] - from) * (towards === 'rear' ? -1 : 1));

/** A bend: straight up to `from`, then off by `slope` [forward, left, up] for each mm beyond it. */
export function bend({ part, from, towards = 'front', slope, share = 1 }) {
  return (point, position) => {
    if (!isOn(point, part)) return position;
    const past = beyond(point.reference, from, towards) * share;
    return sum(position, [slope[0] * past, slope[1] * past, slope[2] * past]);
  };
}

/** A twist that grows evenly from nothing at `from` to `degrees` at `to`, about the line at `pivot` [left, up]. */
export function twist({ part, from, to, degrees, pivot }) {
  return (point, position) => {
    if (!isOn(point, part)) return position;
    const past = beyond(point.reference, from, to > from ? 'front' : 'rear');
    return twisted(position, (degrees * past) / Math.abs(to - from), pivot);
  };
}

/** A dent along the part: `depth` [forward, left, up] at `centre`, faded out at `reach` to either side. */
export function dent({ part, centre, reach, depth, share = 1 }) {
  return (point, position) => {
    const apart = Math.abs(point.reference[0] - centre);
    if (!isOn(point, part) || apart >= reach) return position;
    const weight = share * Math.cos((Math.PI * apart) / (2 * reach)) ** 2;
    return sum(position, [depth[0] * weight, depth[1] * weight, depth[2] * weight]);
  };
}

/** Points moved by a rule of their own: `move(point)` gives [forward, left, up]. */
export function moved(part, move) {
  return (point, position) => (isOn(point, part) ? sum(position, move(point)) : position);
}

/** One point moved. */
export function movedPoint(id, by) {
  return (point, position) => (point.id === id ? sum(position, by) : position);
}

/**
 * What is left of a damage after a pull is let go. Metal comes back by a constant amount and a little
 * of how far it was moved: an invented rule, and not the one by which the program estimates it.
 * @param {number} before share of the damage before the pull (1 as received, 0 straight)
 * @param {number} peak share under load
 * @param {number} size the whole damage, mm
 */
export function released(before, peak, size, { constant = 3.5, part = 0.12 } = {}) {
  const movement = (before - peak) * size;
  return peak + (constant + part * movement) / size;
}
