/**
 * Names that stand in one file after the other, and many times in each: of each the same string is given again, so that a look-up by
 * it neither reads nor compares its letters. A name that falls on the place of another takes it; so the table never grows.
 */
const places = 1 << 14;
const kept = new Array<string>(places).fill('');

/** A code of the letters so far and one more, as `wordIn` needs it for a whole word; that of none is 0. */
export const codeWith = (code: number, letter: number): number => (Math.imul(code, 31) + letter) | 0;

/**
 * The word between two offsets of a text.
 * @param code of its letters by `codeWith`, which whoever looks for the end of a word has at hand
 */
export function wordIn(text: string, from: number, to: number, code: number): string {
  const place = (code ^ (code >>> 14)) & (places - 1);
  const known = kept[place];
  if (known.length === to - from) {
    let at = 0;
    while (at < known.length && known.charCodeAt(at) === text.charCodeAt(from + at)) at++;
    if (at === known.length) return known;
  }
  const word = byItself(text.slice(from, to));
  kept[place] = word;
  return word;
}

/** The same word as others have it. */
export function sameWord(word: string): string {
  let code = 0;
  for (let at = 0; at < word.length; at++) code = codeWith(code, word.charCodeAt(at));
  return wordIn(word, 0, word.length, code);
}

/** A piece of a text holds on to the text; the name of a property is a string by itself, and the engine has one only of each. */
function byItself(piece: string): string {
  const named: Record<string, null> = Object.create(null);
  named[piece] = null;
  for (const name in named) return name;
  return piece;
}
