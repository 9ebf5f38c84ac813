/**
 * The text of an edit with a person's answer in the place of its mark.
 * @param mark in quotes it stands for a value, which stays a text to YAML whatever was typed; bare, for words in a comment
 */
export const filledIn = (text: string, mark: string, answer: string): string =>
  text
    .split(`"${mark}"`)
    .map((piece) => piece.split(mark).join(oneLine(answer)))
    .join(JSON.stringify(answer));

/** A comment ends with its line, and YAML has no way to write a control character in one. */
const oneLine = (answer: string): string => answer.replaceAll(/[\s\p{Cc}\u2028\u2029]+/gu, ' ').trim();

/** What stands against an answer, null where nothing does. A dash is no reason, but nobody's name is ours to judge. */
export const objectionTo = (answer: string, of: 'name' | 'reason'): string | null =>
  of === 'name' || answer.trim() === '' || /\p{L}/u.test(answer) ? null : 'A reason has words: say why.';
