import { closingOf } from '../brackets';
import { beginsPlain } from '../key-line';
import { unclosedMessage } from './leaf-problem';

/** What goes wrong on a line of block structure, and how it is said. */

/** Lines that should start in one column; the first of several wrong ones in a row is reported. */
export class Alignment {
  private last: number;

  constructor(readonly indent: number) {
    this.last = indent;
  }

  isNewlyWrong(indent: number): boolean {
    const wrong = indent !== this.indent && indent !== this.last;
    this.last = indent;
    return wrong;
  }
}

/** Explicit keys, and keys with an anchor, an alias or a tag before their colon. */
export const needsWholeMap = (line: string): boolean => /^(?:\?(?:[ \t]|$)|[&*!].*:(?:[ \t]|$))/.test(line);

export const brokenEntryMessage = (text: string, from: number, stop: number, lineEnd: number): string => {
  const first = text[from];
  if (first === ':') return 'a key is missing before the colon';
  if (first === ']' || first === '}') return `this ${first} closes nothing`;
  if (closingOf(text, from, lineEnd).kind === 'open') return unclosedMessage(first);
  if (!beginsPlain(text, from, lineEnd)) return 'a key is expected here, as in “name: value”';
  const words = text.slice(from, stop).split(/[[{]/, 1)[0].trimEnd();
  return `a colon is missing after “${words.length > 40 ? `${words.slice(0, 40)}…` : words}”`;
};
