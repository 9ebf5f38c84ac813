/** What one line says to block structure: a key with a colon, a list dash, or neither. */

import { quoteEnd } from './brackets';

export interface KeyOnLine {
  readonly start: number;
  readonly end: number;
  readonly colon: number;
  readonly quoted: boolean;
  /** Offset of what stands after the colon; -1 where that is nothing or a comment. */
  readonly valueStart: number;
}

const isBlank = (character: string): boolean => character === ' ' || character === '\t';
const isBlankOrEnd = (text: string, offset: number, end: number): boolean =>
  offset >= end || isBlank(text[offset]);

/** Offset of the first visible character, or -1 where a comment or nothing follows. */
export const visibleFrom = (text: string, from: number, end: number): number => {
  let offset = from;
  while (offset < end && isBlank(text[offset])) offset++;
  if (offset >= end || (text[offset] === '#' && offset > from)) return -1;
  return offset;
};

export const isDash = (text: string, offset: number, end: number): boolean =>
  text[offset] === '-' && isBlankOrEnd(text, offset + 1, end);

/** Whether a plain scalar can begin here, outside brackets: YAML 1.2.2, 7.3.3. */
export const beginsPlain = (text: string, offset: number, end: number): boolean => {
  const first = text[offset];
  if (first === '-' || first === '?' || first === ':') return !isBlankOrEnd(text, offset + 1, end);
  return !',[]{}#&*!|>\'"%@`'.includes(first);
};

/** The key that begins at `start`, if the line up to `end` has one. */
export const keyOnLine = (text: string, start: number, end: number): KeyOnLine | null => {
  const first = text[start];
  if (first === '"' || first === "'") {
    const keyEnd = quoteEnd(text, start, end);
    if (keyEnd < 0) return null;
    let colon = keyEnd;
    while (colon < end && isBlank(text[colon])) colon++;
    if (text[colon] !== ':' || colon >= end || !isBlankOrEnd(text, colon + 1, end)) return null;
    return { start, end: keyEnd, colon, quoted: true, valueStart: visibleFrom(text, colon + 1, end) };
  }
  if (!beginsPlain(text, start, end)) return null;
  for (let colon = start; colon < end; colon++) {
    const code = text.charCodeAt(colon);
    if (code === 58 && isBlankOrEnd(text, colon + 1, end)) {
      let keyEnd = colon;
      while (keyEnd > start && isBlank(text[keyEnd - 1])) keyEnd--;
      return { start, end: keyEnd, colon, quoted: false, valueStart: visibleFrom(text, colon + 1, end) };
    }
    if (code === 35 && colon > start && isBlank(text[colon - 1])) return null;
  }
  return null;
};

/** A key whose colon has no space behind it, `name:[1, 2]`: as text it is one plain scalar, as a line of a map a slip. */
export const tightKeyOnLine = (text: string, start: number, end: number): KeyOnLine | null => {
  if (!beginsPlain(text, start, end)) return null;
  for (let colon = start; colon < end; colon++) {
    if (isBlank(text[colon])) return null;
    if (text[colon] === ':') {
      return colon === start
        ? null
        : { start, end: colon, colon, quoted: false, valueStart: visibleFrom(text, colon + 1, end) };
    }
  }
  return null;
};

/** End of what is written on a line, without a trailing comment and blanks. */
export const writtenEnd = (text: string, start: number, end: number): number => {
  let offset = start;
  while (offset < end && !(text[offset] === '#' && offset > start && isBlank(text[offset - 1]))) offset++;
  while (offset > start && isBlank(text[offset - 1])) offset--;
  return offset;
};
