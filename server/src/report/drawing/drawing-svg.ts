import { lengthText } from '../../model/units';
import { type Markup, markup, px, shortened } from '../markup';
import { type Sheet, wholeSheet } from '../sheet';
import type { Drawing, DrawnView } from './drawing';
import type { Label } from './drawing-labels';
import { type Arrow, type Mark, sameMark } from './drawing-marks';
import type { DrawnPart } from './drawing-parts';
import type { DrawnPlace } from './drawing-places';
import { spanSvg } from './drawing-spans-svg';
import { drawingStyles } from './drawing-styles';
import { basePath, selectionPath, symbolPath } from './drawing-symbols';
import type { Px } from './drawing-views';
import { type Telling, told } from './told';

/**
 * One view as SVG. Colours come from the classes in `drawingStyles`; no scripts, handlers or style attributes, so that it stands under
 * any content policy. A mark bears its point's id and its line in the text.
 * @param prefix makes the ids of its elements differ from those of others on the page
 */
export const viewSvg = (drawing: Drawing, view: DrawnView, prefix: string, styled = false): Markup =>
  wholeSheet(
    viewSheet(drawing, view, prefix, 'title'),
    styled ? markup`<style>${{ markup: drawingStyles }}</style>` : null,
  );

/**
 * The same piece by piece, for a view that is patched: pieces of a point or a part keep their keys.
 * @param before the view as it was last made, with the same prefix and telling: its marks are taken over where they are the same
 */
export function viewSheet(
  drawing: Drawing,
  view: DrawnView,
  prefix: string,
  telling: Telling,
  before: MadeBefore | null = null,
): Sheet {
  const { frame } = view;
  const id = `${prefix}-${frame.view}`;
  const pieces = new Map<string, Markup>();
  pieces.set('title', markup`<title id="${id}-title">${captionOf(drawing, view)}</title>`);
  pieces.set('desc', markup`<desc id="${id}-desc">${description(drawing, view)}</desc>`);
  pieces.set('grid', markup`<g aria-hidden="true">${gridSvg(view)}</g>`);
  pieces.set('head', headSvg(drawing, view));
  for (const part of view.parts) pieces.set(`part ${part.id}`, partSvg(part, telling));
  view.spans.forEach((span, i) => {
    pieces.set(`span ${i}`, spanSvg(span, telling));
  });
  view.places.forEach((place, i) => {
    pieces.set(`place ${i}`, placeSvg(place, telling));
  });
  const known = new Map(before?.view.marks.map((mark) => [mark.id, mark]));
  const kept = (key: string, mark: Mark): Markup | undefined => {
    const last = known.get(mark.id);
    return last !== undefined && sameMark(last, mark) ? before?.sheet.pieces.get(key) : undefined;
  };
  for (const mark of view.marks)
    if (mark.earlier !== null) {
      const key = `earlier ${mark.id}`;
      pieces.set(key, kept(key, mark) ?? earlierSvg(mark.earlier, mark.arrow));
    }
  for (const mark of view.marks) {
    const key = `mark ${mark.id}`;
    pieces.set(key, kept(key, mark) ?? markSvg(mark, telling));
  }
  view.labels.forEach((label, i) => {
    pieces.set(`label ${i}`, labelSvg(label));
  });
  return {
    name: frame.view,
    open: markup`<svg xmlns="http://www.w3.org/2000/svg" class="fw-drawing" data-view="${frame.view}" width="${frame.width}" height="${frame.height}" viewBox="0 0 ${frame.width} ${frame.height}" role="group" aria-labelledby="${id}-title" aria-describedby="${id}-desc">`,
    pieces,
    close: markup`</svg>`,
  };
}

export interface MadeBefore {
  readonly view: DrawnView;
  readonly sheet: Sheet;
}

const headSvg = (drawing: Drawing, { title, frame }: DrawnView): Markup =>
  markup`<g aria-hidden="true"><text class="fw-caption" x="4" y="12">${title}</text><text x="4" y="25">${shortened(stageLine(drawing), Math.floor((frame.width - 8) / letterPx))}</text></g>`;

/** A letter of the line above a view takes at most, px on average. */
const letterPx = 5.9;

/** `Plan, from above · deviations × 20 · “as received”`: what must not be cut off goes first. */
const captionOf = (drawing: Drawing, { title }: DrawnView): string =>
  [title, stageLine(drawing)].filter((each) => each !== '').join(' · ');

const stageLine = ({ stage, factor, cautions }: Drawing): string =>
  [...(stage === null ? [] : [`deviations × ${factor}`, ...cautions, `“${stage}”`])].join(' · ');

function description(drawing: Drawing, { marks, spans, grid }: DrawnView): string {
  const count = (state: Mark['state']) => marks.filter((mark) => mark.state === state).length;
  const over = drawing.over === null ? '' : ` Laid over “${drawing.over}”.`;
  const off = spans.filter(({ state }) => state === 'outside').length;
  const distances = spans.length === 0 ? '' : ` Distances: ${spans.length} read, ${off} outside.`;
  return `To scale, grid ${lengthText(grid.stepMm, drawing.unit)}. ${count('within')} points within, ${count('outside')} outside, ${count('undecided')} undecided, ${count('unjudged')} unjudged.${distances}${over}`;
}

function gridSvg({ frame, grid }: DrawnView): Markup {
  const sides = [frame.left - 16, frame.right + 16, frame.top - 16, frame.bottom + 16];
  const [left, right, top, bottom] = sides.map(px);
  const across = grid.across.map(({ at, kind, text }) => {
    const x = px(at);
    return markup`<path class="fw-${kind}" d="M${x} ${top}V${bottom}"/><text class="fw-figure" x="${x}" y="${px(bottom + 11)}" text-anchor="middle">${text}</text>`;
  });
  const up = grid.up.map(({ at, kind, text }) => {
    const y = px(at);
    return markup`<path class="fw-${kind}" d="M${left} ${y}H${right}"/><text class="fw-figure" x="${px(left - 4)}" y="${px(y + 3)}" text-anchor="end">${text}</text>`;
  });
  return markup`${across}${up}`;
}

const line = (points: readonly Px[]): string => points.map(([x, y]) => `${px(x)} ${px(y)}`).join('L');

function partSvg({ id, outline, measured }: DrawnPart, telling: Telling): Markup {
  const close = outline.length > 2 ? 'z' : '';
  const moved =
    measured === null ? null : markup`<path class="fw-part-measured" d="M${line(measured)}${close}"/>`;
  const words = `${id}${measured === null ? '' : ', as its points show it, and as measured, magnified'}`;
  const shape = markup`<path class="fw-part" d="M${line(outline)}${close}"/>${moved}`;
  return told(telling, markup`data-part="${id}"`, words, shape);
}

/** Half the length of the strokes across a part, px. */
const stroke = 11;

function placeSvg(place: DrawnPlace, telling: Telling): Markup {
  const [x, y] = place.at;
  // along the part, then across it
  const at = (along: number, across: number): string =>
    place.runsAcross === false ? `${px(x + across)} ${px(y + along)}` : `${px(x + along)} ${px(y + across)}`;
  const attributes = markup`class="fw-${place.kind}" data-part="${place.part}"`;
  return told(telling, attributes, place.text, markup`<path d="${placePath(place, at)}"/>`);
}

/** A bend: a stroke with a knee in it, and its doubt along the part; the end of straight metal: a stroke and a bar; a hold: two jaws. */
function placePath({ kind, doubt }: DrawnPlace, at: (along: number, across: number) => string): string {
  switch (kind) {
    case 'bend': {
      const knee = `M${at(0, -stroke)}L${at(4, -stroke / 3)}L${at(-4, stroke / 3)}L${at(0, stroke)}`;
      const [from, to] = [Math.min(-2, doubt?.[0] ?? 0), Math.max(2, doubt?.[1] ?? 0)];
      return `${knee}M${at(from, stroke)}L${at(to, stroke)}M${at(from, stroke - 3)}L${at(from, stroke + 3)}M${at(to, stroke - 3)}L${at(to, stroke + 3)}`;
    }
    case 'straight':
      return `M${at(0, -stroke)}L${at(0, stroke)}M${at(-3, -stroke)}L${at(3, -stroke)}M${at(-3, stroke)}L${at(3, stroke)}`;
    case 'hold':
      return `M${at(-4, -stroke)}L${at(0, -4)}L${at(4, -stroke)}zM${at(-4, stroke)}L${at(0, 4)}L${at(4, stroke)}z`;
  }
}

function earlierSvg(earlier: Arrow, arrow: Arrow | null): Markup {
  const [x, y] = earlier.to;
  const between =
    arrow === null ? null : markup`<path class="fw-between" d="M${line([earlier.to, arrow.to])}"/>`;
  return markup`<g aria-hidden="true"><path class="fw-earlier" d="M${line([earlier.from, earlier.to])}"/>${between}<circle class="fw-earlier-tip" cx="${px(x)}" cy="${px(y)}" r="2"/></g>`;
}

function markSvg(mark: Mark, telling: Telling): Markup {
  const [x, y] = mark.at;
  const names = `fw-mark fw-${mark.state}${mark.selected ? ' fw-selected' : ''}`;
  const attributes = markup`class="${names}" data-point="${mark.id}"${mark.line === null ? null : markup` data-line="${mark.line}"`}`;
  // where it is pointed at, a small mark is easier hit than seen
  const hit = telling === 'label' ? markup`<circle class="fw-hit" cx="${px(x)}" cy="${px(y)}" r="7"/>` : null;
  const shape = markup`${hit}${mark.arrow === null ? null : arrowSvg(mark.arrow)}${mark.inBase ? markup`<path class="fw-base" d="${basePath(x, y)}"/>` : null}<path class="fw-symbol" d="${symbolPath(mark.state, x, y)}"/>${mark.selected ? markup`<path class="fw-selection" d="${selectionPath(x, y)}"/>` : null}`;
  return told(telling, attributes, mark.text, shape);
}

/** No head is larger, nor longer than a good part of its arrow, px. */
const headLength = 7;

function arrowSvg({ from, to, cut, partial }: Arrow): Markup {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const size = Math.hypot(dx, dy);
  const names = `fw-arrow${partial ? ' fw-partial' : ''}`;
  const shaft = markup`<path class="${names}" d="M${line([from, to])}"/>`;
  if (size < 3) return shaft;
  const [ux, uy] = [dx / size, dy / size];
  const head = Math.min(headLength, 0.6 * size);
  const at = (back: number, aside: number): Px => [
    to[0] - ux * back - uy * aside,
    to[1] - uy * back + ux * aside,
  ];
  const breaks = cut ? `M${line([at(14, -4), at(10, 4)])}M${line([at(18, -4), at(14, 4)])}` : '';
  return markup`${shaft}<path class="fw-head" d="M${line([to, at(head, head * 0.42), at(head, -head * 0.42)])}z"/>${cut ? markup`<path class="fw-cut" d="${breaks}"/>` : null}`;
}

const labelSvg = ({ id, at, leader }: Label): Markup =>
  markup`<g aria-hidden="true"><path class="fw-leader" d="M${line(leader)}"/><text class="fw-label" x="${px(at[0])}" y="${px(at[1])}">${id}</text></g>`;
