import { entryOf, isNothing, type MapNode, type Node, type ScalarNode } from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';

/** A length as written. `fine`: a tolerance or an uncertainty, whose figures weigh more than those of a position. */
export interface WrittenLength {
  readonly node: ScalarNode;
  readonly fine: boolean;
}

/** Every length of a file: all numbers that its `units:` speaks of. Directions, forces, temperatures and times are none. */
export function lengthsOf({ kind, tree }: Analysis): WrittenLength[] {
  if (tree.root?.kind !== 'map') return [];
  if (kind === 'chassis') return chassisLengths(tree.root);
  return kind === 'readings' ? jobLengths(tree.root) : [];
}

const numbersIn = (node: Node | null | undefined, fine: boolean): WrittenLength[] => {
  if (isNothing(node)) return [];
  switch (node.kind) {
    case 'scalar':
      return typeof node.value === 'number' ? [{ node, fine }] : [];
    case 'sequence':
      return node.items.flatMap((item) => numbersIn(item, fine));
    case 'map':
      return node.entries.flatMap(({ value }) => numbersIn(value, fine));
  }
};

const under = (node: Node | null | undefined, keys: readonly string[], fine: boolean): WrittenLength[] =>
  keys.flatMap((key) => numbersIn(entryOf(node, key)?.value, fine));

const valuesOf = (node: Node | null | undefined): (Node | null)[] =>
  node?.kind === 'map'
    ? node.entries.map(({ value }) => value)
    : node?.kind === 'sequence'
      ? [...node.items]
      : [];

const childrenOf = (root: Node, key: string): (Node | null)[] => valuesOf(entryOf(root, key)?.value);

function chassisLengths(root: MapNode): WrittenLength[] {
  const sourceOf = (node: Node | null): Node | null => entryOf(node, 'source')?.value ?? null;
  return [
    ...under(root, ['build', 'build-elsewhere', 'tolerance'], true),
    ...under(sourceOf(root), ['uncertainty'], true),
    ...childrenOf(root, 'parts').flatMap((part) => under(part, ['section'], false)),
    ...childrenOf(root, 'points').flatMap((point) => [
      ...under(point, ['both', 'left', 'right', 'centre'], false),
      ...under(point, ['tolerance', 'uncertainty'], true),
      ...under(sourceOf(point), ['uncertainty'], true),
    ]),
    ...childrenOf(root, 'spans').flatMap((span) => [
      ...under(span, ['distance'], false),
      ...under(span, ['tolerance'], true),
    ]),
  ];
}

function jobLengths(root: MapNode): WrittenLength[] {
  return [
    ...instrumentLengths(root),
    ...under(entryOf(root, 'base')?.value, ['between'], false),
    ...childrenOf(root, 'timeline').flatMap(entryLengths),
  ];
}

const instrumentLengths = (node: Node | null): WrittenLength[] =>
  under(entryOf(node, 'instrument')?.value, ['uncertainty', 'repeatability', 'span-uncertainty'], true);

function entryLengths(entry: Node | null): WrittenLength[] {
  if (entry?.kind !== 'map') return [];
  const is = (kind: string): boolean => entryOf(entry, kind) !== undefined;
  // the `at` of a measure is a date
  if (is('observe') || is('section')) return under(entry, ['at'], false);
  if (is('pull')) {
    const hold = entryOf(entry, 'hold')?.value;
    const places = hold?.kind === 'sequence' ? hold.items : hold ? [hold] : [];
    return places.flatMap((place) => under(place, ['at'], false));
  }
  if (!is('measure')) return [];
  return [
    ...instrumentLengths(entry),
    ...under(entry, ['readings'], false),
    ...childrenOf(entry, 'spans').flatMap((span) =>
      span?.kind === 'sequence' ? numbersIn(span.items[2], false) : [],
    ),
  ];
}
