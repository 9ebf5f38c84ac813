import type { SheetPatch } from '@framewright/schemas/wire';
import { patchChildren } from './patches';

interface Shown {
  readonly container: Element;
  readonly children: Map<string, Element>;
}

/** The pictures and tables that stand on the page, each in the place that bears its name. */
export class Sheets {
  private readonly shown = new Map<string, Shown>();

  /**
   * @param names of all that are to be shown: others go
   * @returns whether all patches fitted what was there
   */
  show(patches: readonly SheetPatch[], names: readonly string[]): boolean {
    for (const [name, { container }] of this.shown)
      if (!names.includes(name)) {
        container.remove();
        this.shown.delete(name);
      }
    for (const patch of patches) this.apply(patch);
    return names.every((name) => this.shown.has(name) || slotOf(name) === null);
  }

  private apply({ name, shell, order, pieces }: SheetPatch): void {
    if (shell !== null) {
      const slot = slotOf(name);
      if (slot === null) return;
      const [container] = elements(shell, false);
      slot.replaceChildren(container);
      this.shown.set(name, { container, children: new Map() });
    }
    const sheet = this.shown.get(name);
    if (sheet === undefined) return;
    const isSvg = sheet.container.namespaceURI === 'http://www.w3.org/2000/svg';
    const made = elements(pieces.map(([, markup]) => markup).join(''), isSvg);
    if (made.length !== pieces.length) throw new Error(`the pieces of ${name} do not fit`);
    const byKey = new Map(pieces.map(([key], i) => [key, made[i]]));
    patchChildren<Element>(sheet.container, sheet.children, order, byKey);
  }
}

const slotOf = (name: string): Element | null => document.querySelector(`[data-slot="${name}"]`);

/** Elements of markup that the server made of data: what files say stands in it as text. */
function elements(markup: string, svg: boolean): Element[] {
  const template = document.createElement('template');
  template.innerHTML = svg ? `<svg xmlns="http://www.w3.org/2000/svg">${markup}</svg>` : markup;
  const parent = svg ? template.content.firstElementChild : template.content;
  return [...(parent?.children ?? [])];
}
