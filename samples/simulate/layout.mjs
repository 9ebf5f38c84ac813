// Text with its columns aligned, one triple a line.

const INVENTED = `# Invented. Pinefield Body Works, its people, this car and every number below come out of
# samples/make-samples.mjs. Nothing here was measured; do not repair a car by it.
`;

/** The words at the head of every sample. */
export const header = (...lines) => `${INVENTED}#\n${lines.map((line) => `# ${line}\n`).join('')}`;

/** One decimal, and no minus before zero. */
export const oneDecimal = (value) => (Math.round(value * 10) / 10 + 0).toFixed(1);

const triple = (cells, widths) => `[${cells.map((cell, axis) => cell.padStart(widths[axis])).join(', ')}]`;

/** Widest cell in each of three columns. */
export function columnWidths(rows) {
  return [0, 1, 2].map((axis) => Math.max(0, ...rows.map((row) => row[axis].length)));
}

/**
 * Lines of a `readings:` block.
 * @param {Array<object|string>} rows a string is a comment or blank line; else `id` with `triples`
 *   (numbers), `written` (the same as texts), or `raw` text in their place, and a `remark`
 */
export function readingLines(rows, indent = 6) {
  const entries = rows.filter((row) => typeof row !== 'string');
  const cellsOf = (row) => row.written ?? (row.triples ?? []).map((numbers) => numbers.map(oneDecimal));
  const widths = columnWidths(entries.flatMap(cellsOf));
  const keyWidth = Math.max(...entries.map((row) => row.id.length)) + 1;
  const space = ' '.repeat(indent);
  return rows
    .map((row) => {
      if (typeof row === 'string') return row === '' ? '' : `${space}${row}`;
      const texts = cellsOf(row).map((cells) => triple(cells, widths));
      const value = row.raw ?? (texts.length === 1 ? texts[0] : `[${texts.join(', ')}]`);
      const remark = row.remark ? `   # ${row.remark}` : '';
      return `${space}${`${row.id}:`.padEnd(keyWidth)} ${value}${remark}`;
    })
    .join('\n');
}

/** Lines of a `points:` block of a chassis file; strings are comments or blank lines. */
export function pointLines(entries) {
  const rows = entries.filter((entry) => typeof entry !== 'string' && !entry.removed);
  const keyWidth = Math.max(...rows.map((entry) => entry.name.length)) + 1;
  const positions = rows.flatMap((entry) => ['both', 'left', 'right', 'centre'].map((kind) => entry[kind]));
  const widths = columnWidths(positions.filter(Boolean).map((position) => position.map(String)));
  return entries
    .map((entry) => {
      if (typeof entry === 'string') return entry === '' ? '' : `  ${entry}`;
      const remark = entry.remark ? `   # ${entry.remark}` : '';
      const key = `${entry.name}:`.padEnd(keyWidth);
      if (entry.removed) return `  ${key} null${remark}`;
      const fields = ['both', 'left', 'right', 'centre']
        .filter((kind) => entry[kind])
        .map((kind) => `${kind}: ${triple(entry[kind].map(String), widths)}`);
      fields.push(`part: ${entry.part}`);
      if (entry.base) fields.push('base: true');
      if (entry.fixing) fields.push(`fixing: ${entry.fixing}`);
      if (entry.more) fields.push(entry.more);
      return `  ${key} { ${fields.join(', ')} }${remark}`;
    })
    .join('\n');
}

/** Lines of a measure's `spans:` block. */
export function spanLines(rows, indent = 6) {
  const from = Math.max(...rows.map((row) => row.from.length)) + 1;
  const to = Math.max(...rows.map((row) => row.to.length)) + 1;
  return rows
    .map((row) => {
      const value = oneDecimal(row.distance).padStart(6);
      const remark = row.remark ? `   # ${row.remark}` : '';
      return `${' '.repeat(indent)}- [${`${row.from},`.padEnd(from)} ${`${row.to},`.padEnd(to)} ${value}]${remark}`;
    })
    .join('\n');
}
