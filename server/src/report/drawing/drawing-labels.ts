import type { Px } from './drawing-views';

/** A name on a drawing, with the line that leads to its mark. */
export interface Label {
  readonly id: string;
  /** Left end of its base line, px. */
  readonly at: Px;
  readonly box: Box;
  readonly leader: readonly [Px, Px];
}

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** What labels are placed among. */
interface Surroundings {
  readonly bounds: Box;
  /** No label may cover these. */
  readonly loud: readonly Box[];
  /** Labels had better not cover these. */
  readonly quiet: readonly Px[];
  readonly lines: readonly (readonly [Px, Px])[];
  /** The same, but less: outlines, and what a sheet has throughout. */
  readonly faint: readonly (readonly [Px, Px])[];
}

/** Size of a label's letters, px, and what a letter takes at most on average: names are lower-case letters and hyphens. */
const labelSize = 10;
const letterWidth = 0.6 * labelSize;
const labelHeight = 12;
const padding = 2;

const distances = [9, 16, 25, 36, 50, 68, 90, 120, 160];
/** Farther off only a name that has to be there: a long line to it would hide more than it tells. */
const usuallyFarthest = 90;
const directions: readonly Px[] = Array.from({ length: 16 }, (_, i) => {
  const angle = ((2 * i - 1) * Math.PI) / 16;
  return [Math.cos(angle), -Math.sin(angle)];
});
const coverCost = { quiet: 6, line: 12, faint: 4, leader: 40 };

/**
 * Places names beside their marks, the first ones first, so that no two cover each other or a loud mark, and all stay on the sheet.
 * A name for which there is no room is left out, unless it is `kept`: then it goes where it covers least, and the others make way.
 */
export function placedLabels(
  wanted: readonly { readonly id: string; readonly mark: Px; readonly kept: boolean }[],
  surroundings: Surroundings,
): Label[] {
  const placed: Label[] = [];
  for (const { id, mark, kept } of wanted) {
    const label =
      bestPlace(id, mark, placed, surroundings, false) ??
      (kept ? bestPlace(id, mark, placed, { ...surroundings, loud: [] }, true) : null);
    if (label !== null) placed.push(label);
  }
  return placed;
}

function bestPlace(
  id: string,
  mark: Px,
  placed: readonly Label[],
  { bounds, loud, quiet, lines, faint }: Surroundings,
  anywhere: boolean,
): Label | null {
  let best: Label | null = null;
  let bestCost = Number.POSITIVE_INFINITY;
  for (const distance of distances) {
    if (distance >= bestCost || (!anywhere && distance > usuallyFarthest)) break;
    for (const direction of directions) {
      const label = labelAt(id, mark, direction, distance, anywhere ? bounds : null);
      const { box, leader } = label;
      if (!inside(box, bounds)) continue;
      if (loud.some((each) => overlap(each, box))) continue;
      if (
        placed.some(
          (each) => overlap(each.box, box) || crosses(leader, each.box) || crosses(each.leader, box),
        )
      )
        continue;
      let cost = distance;
      for (const at of quiet) if (contains(box, at)) cost += coverCost.quiet;
      for (const line of lines) if (cost < bestCost && crosses(line, box)) cost += coverCost.line;
      for (const line of faint) if (cost < bestCost && crosses(line, box)) cost += coverCost.faint;
      for (const each of placed) if (meet(each.leader, leader)) cost += coverCost.leader;
      if (cost < bestCost) [best, bestCost] = [label, cost];
    }
  }
  return best;
}

/** @param within pushed onto the sheet where it would stand off it */
function labelAt(id: string, mark: Px, [dx, dy]: Px, distance: number, within: Box | null): Label {
  const width = [...id].length * letterWidth + 2 * padding;
  const towards: Px = [mark[0] + dx * distance, mark[1] + dy * distance];
  let left = dx > 0.3 ? towards[0] : dx < -0.3 ? towards[0] - width : towards[0] - width / 2;
  let top = dy > 0.3 ? towards[1] : dy < -0.3 ? towards[1] - labelHeight : towards[1] - labelHeight / 2;
  if (within !== null) {
    left = Math.min(Math.max(left, within.left), within.right - width);
    top = Math.min(Math.max(top, within.top), within.bottom - labelHeight);
  }
  const box: Box = { left, right: left + width, top, bottom: top + labelHeight };
  const end: Px = [clamped(mark[0], box.left, box.right), clamped(mark[1], box.top, box.bottom)];
  return { id, at: [left + padding, top + labelHeight - 3], box, leader: [mark, end] };
}

const clamped = (value: number, least: number, most: number): number =>
  Math.min(Math.max(value, least), most);

const inside = (box: Box, bounds: Box): boolean =>
  box.left >= bounds.left &&
  box.right <= bounds.right &&
  box.top >= bounds.top &&
  box.bottom <= bounds.bottom;

const contains = (box: Box, [x, y]: Px): boolean =>
  x > box.left - 2 && x < box.right + 2 && y > box.top - 2 && y < box.bottom + 2;

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Whether a line passes through a box (Liang & Barsky 1984). */
function crosses([[x0, y0], [x1, y1]]: readonly [Px, Px], { left, right, top, bottom }: Box): boolean {
  if (
    Math.max(x0, x1) < left ||
    Math.min(x0, x1) > right ||
    Math.max(y0, y1) < top ||
    Math.min(y0, y1) > bottom
  )
    return false;
  let enter = 0;
  let leave = 1;
  for (const [step, room] of [
    [x0 - x1, x0 - left],
    [x1 - x0, right - x0],
    [y0 - y1, y0 - top],
    [y1 - y0, bottom - y0],
  ]) {
    if (step === 0) {
      if (room <= 0) return false;
    } else if (step < 0) enter = Math.max(enter, room / step);
    else leave = Math.min(leave, room / step);
  }
  return enter < leave;
}

function meet([a, b]: readonly [Px, Px], [c, d]: readonly [Px, Px]): boolean {
  const turn = (p: Px, q: Px, r: Px) => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}
