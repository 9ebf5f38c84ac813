/** Editor groups as the editor's own commands give and take them: beside each other (0) or below one another (1). Sizes given are in px. */
interface EditorLayout {
  readonly orientation: 0 | 1;
  readonly groups: readonly EditorGroup[];
}

interface EditorGroup {
  readonly size?: number;
  readonly groups?: readonly EditorGroup[];
}

/** A row of one reading, as the formatter aligns it, with a hint of three figures behind it, in letters. */
const rowLetters = 97;
/** Line numbers before a row and the marks behind it, px. */
const besideRow = 86;
/** A drawing beside is no narrower, px: its words and its table want that much. */
const leastDrawing = 340;
/** Of a window that is wide enough the text has so much. */
const share = 0.55;

/** The width of all groups together, px; null where it cannot be told, as all stand below one another. */
export function widthOf(layout: unknown): number | null {
  if (!isLayout(layout)) return null;
  const row = layout.orientation === 0 ? layout.groups : layout.groups[0]?.groups;
  if (row === undefined) return null;
  const sizes = row.map(({ size }) => size ?? Number.NaN);
  const sum = sizes.reduce((a, b) => a + b, 0);
  return Number.isFinite(sum) && sum > 0 ? sum : null;
}

const isLayout = (value: unknown): value is EditorLayout =>
  typeof value === 'object' && value !== null && 'groups' in value && Array.isArray(value.groups);

/** Text and drawing: beside each other while rows are seen whole with their hints, else the drawing below. */
export function layoutFor(widthPx: number | null, letterPx: number): EditorLayout {
  if (widthPx === null) return beside(share);
  const rowsPx = rowLetters * letterPx + besideRow;
  if (widthPx - rowsPx < leastDrawing) return { orientation: 1, groups: [{ size: 0.5 }, { size: 0.5 }] };
  return beside(Math.max(share, rowsPx / widthPx));
}

const beside = (text: number): EditorLayout => ({
  orientation: 0,
  groups: [{ size: text }, { size: 1 - text }],
});
