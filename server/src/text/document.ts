import { writtenEnd } from './key-line';
import { lineEndBefore, lineStartsOf } from './lines';

/** A stretch of the text to be reported. */
interface Slip {
  readonly message: string;
  readonly start: number;
  readonly end: number;
}

/** The text as one YAML document, same length and offsets: what is not content blanked, lone \r read as \n. */
interface OneDocument {
  readonly text: string;
  readonly from: number;
  readonly to: number;
  readonly slips: readonly Slip[];
  /** From each `<<<<<<<` line to after its `>>>>>>>` line. */
  readonly conflicts: readonly { start: number; end: number }[];
}

const MERGE_MARKER = /^(?:<{7}|\|{7}|={7}|>{7})(?= |$)/;
const DOCUMENT_MARKER = /^(?:---|\.\.\.)(?=[ \t]|$)/;

export const oneDocumentOf = (text: string): OneDocument => {
  const from = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const lineBroken = text.includes('\r') && /\r(?!\n)/.test(text) ? text.replace(/\r(?!\n)/g, '\n') : text;
  return new MarkerSearch(lineBroken, from).result();
};

const markers = ['---', '...', '%', '<<<<<<<', '|||||||', '=======', '>>>>>>>'];

/** Whether a line begins like one that is no content: it must then be looked at more closely. */
export const beginsLikeMarker = (text: string, lineStart: number): boolean => {
  const code = text.charCodeAt(lineStart);
  // nearly all lines begin with a space or a letter
  if (code === 32 || code > 96) return code === 124 && text.startsWith('|||||||', lineStart);
  return markers.some((marker) => text.startsWith(marker, lineStart));
};

class MarkerSearch {
  private readonly slips: Slip[] = [];
  private readonly conflicts: { start: number; end: number }[] = [];
  private readonly blanked: { start: number; end: number }[] = [];
  private hasBegun = false;
  /** Start of a `...` line, at which the document ends whatever follows. */
  private ended = -1;
  private conflictStart = -1;

  constructor(
    private readonly text: string,
    private readonly from: number,
  ) {}

  result(): OneDocument {
    const { text, from, slips, conflicts } = this;
    const starts = lineStartsOf(text);
    let stop: number | null = null;
    for (let line = 0; line < starts.length && stop === null; line++) {
      const start = Math.max(starts[line], from);
      const nextStart = starts[line + 1] ?? text.length;
      stop = this.documentEndAt(start, lineEndBefore(text, start, nextStart));
    }
    const to = this.ended >= 0 ? this.ended : (stop ?? text.length);
    if (this.conflictStart >= 0) conflicts.push({ start: this.conflictStart, end: to });
    return { text: this.withBlanks(), from, to, slips, conflicts };
  }

  /** Looks at one line; answers where the document ends if another one begins here. */
  private documentEndAt(start: number, end: number): number | null {
    const line = this.text.slice(start, end);
    const isBlank = /^[ \t]*(?:#|$)/.test(line);
    if (MERGE_MARKER.test(line)) {
      this.mergeMarker(line, start, end);
      return null;
    }
    const marker = DOCUMENT_MARKER.exec(line)?.[0];
    if (this.ended >= 0 && !isBlank && marker !== '...') return this.secondDocument(start, end);
    if (marker === '---') {
      if (this.hasBegun) return this.secondDocument(start, end);
      this.blanked.push({ start, end: start + 3 });
      this.hasBegun = true;
    } else if (marker === '...') {
      if (this.ended < 0) this.ended = start;
    } else if (!this.hasBegun && line.startsWith('%')) {
      this.slip('directives (“%…”) are not part of this language: remove the line', start, end);
      this.blanked.push({ start, end });
    } else if (!isBlank) this.hasBegun = true;
    return null;
  }

  private mergeMarker(line: string, start: number, end: number): void {
    this.slip('merge conflict left in the file', start, end);
    this.blanked.push({ start, end });
    if (line.startsWith('<')) this.conflictStart = start;
    if (line.startsWith('>') && this.conflictStart >= 0) {
      this.conflicts.push({ start: this.conflictStart, end });
      this.conflictStart = -1;
    }
  }

  private secondDocument(start: number, end: number): number {
    this.slip('only one document in a file: nothing after this line is read', start, end);
    return start;
  }

  private slip(message: string, start: number, end: number): void {
    this.slips.push({ message, start, end: writtenEnd(this.text, start, end) });
  }

  private withBlanks(): string {
    let result = '';
    let done = 0;
    for (const { start, end } of this.blanked) {
      result += this.text.slice(done, start) + ' '.repeat(end - start);
      done = end;
    }
    return result + this.text.slice(done);
  }
}
