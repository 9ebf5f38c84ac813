import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Child, type Parent, patchChildren } from '../client/src/webview/patches';
import { sheetPatch } from '../server/src/report/sheet';

/** A row of nodes in place of a page's elements. */
class Row implements Parent<Node> {
  nodes: Node[] = [];
  moves = 0;
  get firstElementChild(): Node | null {
    return this.nodes[0] ?? null;
  }
  insertBefore(node: Node, before: Node | null): void {
    this.moves++;
    if (node.row === this) this.nodes.splice(this.nodes.indexOf(node), 1);
    node.row = this;
    this.nodes.splice(before === null ? this.nodes.length : this.nodes.indexOf(before), 0, node);
  }
}

class Node implements Child<Node> {
  row: Row | null = null;
  constructor(readonly markup: string) {}
  get nextElementSibling(): Node | null {
    return this.row?.nodes[this.row.nodes.indexOf(this) + 1] ?? null;
  }
  remove(): void {
    this.row?.nodes.splice(this.row.nodes.indexOf(this), 1);
    this.row = null;
  }
}

const sheetOf = (pieces: ReadonlyMap<string, string>, open = '<g>') => ({
  name: 'plan',
  open: { markup: open },
  pieces: new Map([...pieces].map(([key, markup]) => [key, { markup }])),
  close: { markup: '</g>' },
});

const pieces = fc
  .uniqueArray(fc.tuple(fc.stringMatching(/^[a-f]$/), fc.constantFrom('x', 'y', 'z')), {
    selector: ([key]) => key,
  })
  .map((entries) => new Map(entries));

/** Shows one sheet after another, as a page does. */
function shownThrough(sheets: readonly Map<string, string>[]): { row: Row; markup: string[]; moves: number } {
  const row = new Row();
  const shown = new Map<string, Node>();
  let before: ReturnType<typeof sheetOf> | null = null;
  let moves = 0;
  for (const each of sheets) {
    const wanted = sheetOf(each);
    const patch = sheetPatch(before, wanted);
    before = wanted;
    row.moves = 0;
    if (patch !== null) {
      const made = new Map(patch.pieces.map(([key, markup]) => [key, new Node(markup)]));
      patchChildren<Node>(row, shown, patch.order, made);
    }
    moves = row.moves;
  }
  return { row, markup: row.nodes.map(({ markup }) => markup), moves };
}

describe('a sheet that is patched', () => {
  test('holds what a new one would', () => {
    fc.assert(
      fc.property(fc.array(pieces, { minLength: 1, maxLength: 5 }), (sheets) => {
        expect(shownThrough(sheets).markup).toEqual([...(sheets.at(-1) ?? [])].map(([, markup]) => markup));
      }),
    );
  });

  test('is left alone where nothing changed, and touched once where one piece did', () => {
    const many = new Map(Array.from({ length: 200 }, (_, i) => [`mark ${i}`, `at ${i}`]));
    expect(sheetPatch(sheetOf(many), sheetOf(new Map(many)))).toBeNull();
    const moved = new Map(many).set('mark 7', 'elsewhere');
    expect(sheetPatch(sheetOf(many), sheetOf(moved))).toEqual({
      name: 'plan',
      shell: null,
      order: null,
      pieces: [['mark 7', 'elsewhere']],
    });
    const { moves, markup } = shownThrough([many, moved]);
    expect(markup).toHaveLength(200);
    expect(moves).toBe(1);
  });

  test('is made anew where its outer element changed', () => {
    const some = new Map([['a', 'x']]);
    expect(sheetPatch(sheetOf(some), sheetOf(some, '<g class="wide">'))).toEqual({
      name: 'plan',
      shell: '<g class="wide"></g>',
      order: ['a'],
      pieces: [['a', 'x']],
    });
  });
});
