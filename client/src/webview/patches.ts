/** What a patch needs of a page's elements; narrow, so that the steps are tested without a page. */
export interface Parent<Child> {
  readonly firstElementChild: Child | null;
  insertBefore(child: Child, before: Child | null): unknown;
}

export interface Child<Self> {
  readonly nextElementSibling: Self | null;
  remove(): void;
}

/**
 * Brings the children of an element to what a patch says, and leaves alone all that it does not name.
 * @param shown what lies in the element, by key; kept up to date
 * @param order all keys in their order; null: they stay as they are
 * @param made the new elements, by key
 */
export function patchChildren<Node extends Child<Node>>(
  parent: Parent<Node>,
  shown: Map<string, Node>,
  order: readonly string[] | null,
  made: ReadonlyMap<string, Node>,
): void {
  if (order !== null) {
    const kept = new Set(order);
    for (const [key, node] of shown)
      if (!kept.has(key)) {
        node.remove();
        shown.delete(key);
      }
  }
  for (const [key, node] of made) {
    const old = shown.get(key);
    if (old !== undefined) {
      parent.insertBefore(node, old);
      old.remove();
    }
    shown.set(key, node);
  }
  if (order === null) return;
  let next = parent.firstElementChild;
  for (const key of order) {
    const node = shown.get(key);
    if (node === undefined) continue;
    if (node === next) next = node.nextElementSibling;
    else parent.insertBefore(node, next);
  }
}
