import { soundBody } from './body.mjs';
import { measuringInstrument } from './instrument.mjs';
import { readingLines, spanLines } from './layout.mjs';
import { normalGenerator } from './random.mjs';

/** Both sides of each name, left before right. */
export const bothSides = (...names) => names.flatMap((name) => [`${name}.L`, `${name}.R`]);

/** One side of each name. */
export const onSide = (side, ...names) => names.map((name) => `${name}.${side}`);

/**
 * One car in the shop: its body, and what an instrument reads of it.
 * @param {Map<string, object>} points of its chassis
 * @param {number} seed the order's number
 */
export function carInTheShop(points, seed) {
  const normal = normalGenerator(seed);
  const sound = soundBody(points, normal);
  const pointOf = (id) => {
    const point = points.get(id);
    if (!point) throw new Error(`the chassis has no point ${id}`);
    return point;
  };

  return {
    sound,
    instrument: (options) => measuringInstrument(options, normal),

    /**
     * The rows of a readings block. An item is an id, a comment, '' for a blank line, or
     * `{ id, repeats, remark, raw }`. Slips of the pen: `of` is the point that was really read, `change` alters
     * the numbers, `write` turns them into three texts, `spoil` into text that is wrong.
     */
    rows(instrument, body, items) {
      return items.map((item) => {
        if (item === '' || (typeof item === 'string' && item.startsWith('#'))) return item;
        const row = typeof item === 'string' ? { id: item } : item;
        if (row.raw !== undefined) return row;
        const triples = instrument.readings(body, pointOf(row.of ?? row.id), row.repeats ?? 1);
        if (row.write) return { ...row, written: triples.map(row.write) };
        if (row.spoil) return { ...row, raw: row.spoil(triples[0]) };
        return { ...row, triples: row.change ? triples.map(row.change) : triples };
      });
    },

    /** The lines of a readings block. */
    readings(instrument, body, items) {
      return readingLines(this.rows(instrument, body, items));
    },

    /** The lines of a spans block; an item is `[from, to]` or `[from, to, remark]`. */
    spans(instrument, body, pairs) {
      const rows = pairs.map(([from, to, remark]) => ({
        from,
        to,
        remark,
        distance: instrument.span(body, pointOf(from), pointOf(to)),
      }));
      return spanLines(rows);
    },
  };
}
