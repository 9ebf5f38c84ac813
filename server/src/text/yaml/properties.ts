import type { ParseState } from '../parse-state';
import type { Node } from '../tree';

/**
 * Anchors that stand alone behind a key or a dash, for the lines below; null where the text is anything else.
 * Tags among them are reported.
 */
export const anchorsAlone = (state: ParseState, from: number, to: number): string[] | null => {
  const first = state.text[from];
  if (first !== '&' && first !== '!') return null;
  const properties = state.text.slice(from, to).split(/[ \t]+/);
  if (!properties.every((property) => /^(?:&[^\s,[\]{}]+|![^\s,[\]{}]*)$/.test(property))) return null;
  const tag = properties.find((property) => property.startsWith('!'));
  if (tag !== undefined) {
    const at = state.text.indexOf(tag, from);
    state.reportSyntax(tagMessage(tag), at, at + tag.length);
  }
  return properties.filter((property) => property.startsWith('&')).map((property) => property.slice(1));
};

export const tagMessage = (tag: string): string => `tags (“${tag}”) are not part of this language: remove it`;

/** Reads a value under its anchors: an alias inside it is told that it stands inside its own anchor. */
export const anchored = (
  state: ParseState,
  names: readonly string[] | null,
  read: () => Node | null,
): Node | null => {
  for (const name of names ?? []) state.anchors.open(name);
  const node = read();
  for (const name of names ?? []) state.anchors.close(name, node);
  return node;
};
