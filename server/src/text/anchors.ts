import type { ProblemList } from './problem-list';
import type { Node, Place } from './tree';

/** How many values aliases may stand for in one file: far beyond use, far below harm. */
const MOST_EXPANDED = 100_000;

/**
 * Anchors (`&name`) and what their aliases (`*name`) stand for. An alias shares the nodes of its anchor, so
 * nested aliases take no room here; but whoever walks the tree meets every copy, so their number is bounded.
 */
export class Anchors {
  private readonly named = new Map<string, Node | null | 'open'>();
  private readonly sizes = new Map<Node, number>();
  private expanded = 0;

  /** The value under this anchor is being read: an alias inside it would contain itself. */
  open(name: string): void {
    this.named.set(name, 'open');
  }

  close(name: string, node: Node | null): void {
    this.named.set(name, node);
  }

  /** What the alias at `place` stands for, placed there; null with a problem where that cannot be. */
  resolved(name: string, place: Place, problems: ProblemList): Node | null {
    const target = this.named.get(name);
    if (target === undefined) {
      problems.add('text/syntax', `no anchor &${name} stands above this *${name}`, place);
      return null;
    }
    if (target === 'open') {
      problems.add('text/syntax', `*${name} stands inside its own anchor &${name}`, place);
      return null;
    }
    if (target === null) return null;
    const size = this.sizeOf(target);
    if (this.expanded + size > MOST_EXPANDED) {
      if (this.expanded <= MOST_EXPANDED) {
        problems.add('text/too-large', `the aliases stand for more than ${MOST_EXPANDED} values`, place);
      }
      this.expanded = MOST_EXPANDED + 1;
      return null;
    }
    this.expanded += size;
    const node: Node = { ...target, place, alias: true };
    this.sizes.set(node, size);
    return node;
  }

  private sizeOf(node: Node): number {
    const known = this.sizes.get(node);
    if (known !== undefined) return known;
    let size = 1;
    if (node.kind === 'sequence') for (const item of node.items) size += this.sizeOf(item);
    if (node.kind === 'map') {
      for (const entry of node.entries) size += 1 + (entry.value ? this.sizeOf(entry.value) : 0);
    }
    this.sizes.set(node, size);
    return size;
  }
}
