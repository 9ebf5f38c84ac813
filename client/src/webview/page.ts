/** An element of the page's frame, which is known to be there. */
export const element = (id: string): HTMLElement => elementOf(id, HTMLElement);

/** The same where more is asked of it than every element can do. */
export function elementOf<Kind extends HTMLElement>(id: string, kind: new () => Kind): Kind {
  const found = document.getElementById(id);
  if (!(found instanceof kind)) throw new Error(`the page has no ${id}`);
  return found;
}
