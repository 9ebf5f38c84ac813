import type { Node, ScalarNode } from '../text/tree';

/** One number as it stands in the text, digit by digit. Scalars of the tree are such numbers: nothing is copied. */
export type TypedNumber = Pick<ScalarNode, 'source' | 'place'>;

export type TypedTriple = readonly [TypedNumber, TypedNumber, TypedNumber];

const isTyped = (node: Node): node is ScalarNode => node.kind === 'scalar' && node.alias === undefined;

/** The one number of a place; null where it is typed elsewhere, and an alias stands for it here. */
export const typedNumber = (node: Node | null | undefined): TypedNumber | null =>
  node && isTyped(node) ? node : null;

/** The three numbers of a list; null where one of them is typed elsewhere, and an alias stands for it here. */
export function typedTriple(node: Node): TypedTriple | null {
  if (node.kind !== 'sequence' || node.alias || node.items.length !== 3) return null;
  const [a, b, c] = node.items;
  return isTyped(a) && isTyped(b) && isTyped(c) ? [a, b, c] : null;
}

/** The numbers of a reading, three for each repeat; null where not all of them are typed here. */
export function typedTriples(node: Node): readonly TypedTriple[] | null {
  if (node.kind !== 'sequence' || node.alias) return null;
  if (!node.items.some((item) => item.kind === 'sequence')) {
    const triple = typedTriple(node);
    return triple && [triple];
  }
  const triples = node.items.map(typedTriple).filter((triple) => triple !== null);
  return triples.length === node.items.length ? triples : null;
}
