/** What a line begins with: the dashes of list items, and a key. */
export interface LineHead {
  /** Columns of the dashes. */
  readonly dashes: readonly number[];
  /** Column of what follows them; the end of the line where nothing does. */
  readonly column: number;
  /** Null where no colon follows. */
  readonly key: string | null;
  /** Column behind the colon. */
  readonly valueColumn: number;
}

const key =
  /^(?:"((?:[^"\\]|\\.)*)"|'((?:[^']|'')*)'|([^\s#"'[\]{},&*!|>%@`](?:[^:#]|:(?=\S)|(?<=\S)#)*?))(?<![ \t])[ \t]*:(?=\s|$)/;

/** The head of a line's text, or of its beginning up to the cursor. */
export function lineHead(line: string): LineHead {
  const dashes: number[] = [];
  let column = line.search(/[^ ]|$/);
  while (/^-(?: |$)/.test(line.slice(column, column + 2))) {
    dashes.push(column);
    column += 1 + (/^ */.exec(line.slice(column + 1))?.[0].length ?? 0);
  }
  const found = key.exec(line.slice(column));
  if (found === null) return { dashes, column, key: null, valueColumn: column };
  return { dashes, column, key: found[1] ?? found[2] ?? found[3], valueColumn: column + found[0].length };
}
