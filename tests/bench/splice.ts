/** A change of a text: what stands from `start` to `end` becomes `text`. */
export interface Splice {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

export const spliced = (text: string, splice: Splice): string =>
  text.slice(0, splice.start) + splice.text + text.slice(splice.end);

export function positionOf(text: string, offset: number): { line: number; character: number } {
  let line = 0;
  let start = 0;
  for (let end = text.indexOf('\n'); end !== -1 && end < offset; end = text.indexOf('\n', start)) {
    line++;
    start = end + 1;
  }
  return { line, character: offset - start };
}

/** It as the protocol tells of a change of a text. */
export const changeOf = (text: string, splice: Splice) => ({
  range: { start: positionOf(text, splice.start), end: positionOf(text, splice.end) },
  text: splice.text,
});
