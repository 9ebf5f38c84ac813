/** Where a quote or bracket that opens a value is closed, or what keeps it from being closed. */

type Closing =
  /** `end`: after the closing character. */
  | { readonly kind: 'closed'; readonly end: number; readonly depth: number }
  | { readonly kind: 'open'; readonly at: number }
  /** A closing bracket of the other sort; `at` is where it stands, `opener` the bracket that it meets. */
  | { readonly kind: 'mismatch'; readonly at: number; readonly opener: number }
  /** Neither a quote nor a bracket begins here. */
  | { readonly kind: 'none' };

/** Offset after the quote that closes the one at `start`, or -1. */
export const quoteEnd = (text: string, start: number, end: number): number => {
  const quote = text[start];
  for (let offset = start + 1; offset < end; offset++) {
    if (quote === '"' && text[offset] === '\\') offset++;
    else if (text[offset] === quote) {
      if (quote === "'" && text[offset + 1] === quote && offset + 1 < end) offset++;
      else return offset + 1;
    }
  }
  return -1;
};

const BLANKS = ' \t\r\n';

/** Reads from `start`, where a value begins, at most to `end`. */
export const closingOf = (text: string, start: number, end: number): Closing => {
  const first = text[start];
  if (first === '"' || first === "'") {
    const closed = quoteEnd(text, start, end);
    return closed < 0 ? { kind: 'open', at: start } : { kind: 'closed', end: closed, depth: 0 };
  }
  if (first !== '[' && first !== '{') return { kind: 'none' };
  const openers: number[] = [];
  let deepest = 0;
  // A quote opens only where a value can begin: the apostrophe of don't is a letter.
  let valueMayBegin = true;
  let afterQuoted = false;
  for (let offset = start; offset < end; offset++) {
    const character = text[offset];
    if (BLANKS.includes(character)) continue;
    if (character === '#' && BLANKS.includes(text[offset - 1])) {
      while (offset < end && text[offset] !== '\n') offset++;
      continue;
    }
    const quotedBefore = afterQuoted;
    afterQuoted = false;
    if (character === '[' || character === '{') {
      openers.push(offset);
      deepest = Math.max(deepest, openers.length);
      valueMayBegin = true;
    } else if (character === ']' || character === '}') {
      const opener = openers.pop()!;
      if ((text[opener] === '[') !== (character === ']')) return { kind: 'mismatch', at: offset, opener };
      if (openers.length === 0) return { kind: 'closed', end: offset + 1, depth: deepest };
      valueMayBegin = false;
      afterQuoted = true;
    } else if (character === ',') {
      valueMayBegin = true;
    } else if ((character === '"' || character === "'") && valueMayBegin) {
      const closed = quoteEnd(text, offset, end);
      if (closed < 0) return { kind: 'open', at: offset };
      offset = closed - 1;
      valueMayBegin = false;
      afterQuoted = true;
    } else {
      valueMayBegin =
        character === ':' &&
        (quotedBefore || offset + 1 >= end || `${BLANKS},[]{}`.includes(text[offset + 1]));
    }
  }
  return { kind: 'open', at: openers[openers.length - 1] };
};
