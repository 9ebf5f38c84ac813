/** Text in lines of a width, as a page for a terminal or a sheet of paper has it. */

/** Stands for a blank at which no line ends. */
const tied = '\u00a0';

/** A figure stays with its sign, its unit and what it is a figure of. */
const tiedUp = (text: string): string =>
  text
    .replace(/(\d) (mm|in|s|°C|%)(?![\w-])/g, `$1${tied}$2`)
    .replace(/ ±/g, `${tied}±`)
    .replace(/\b(length|width|height|u =|at most|Step) (?=[-−±\d])/g, (words) => words.replaceAll(' ', tied))
    .replace(/\bu =/g, `u${tied}=`);

/**
 * A label and beside it a text, broken between words. A word that is longer than a line stands alone.
 * @param indent where the text begins, in characters
 */
export function wrapped(label: string, text: string, indent: number, width = 100): string[] {
  const lines: string[] = [];
  let line = label.padEnd(indent);
  let isEmpty = true;
  for (const word of tiedUp(text).split(' ')) {
    if (!isEmpty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = ' '.repeat(indent);
      isEmpty = true;
    }
    line += isEmpty ? word : ` ${word}`;
    isEmpty = false;
  }
  return [...lines, line].map((each) => each.replaceAll(tied, ' ').trimEnd());
}
