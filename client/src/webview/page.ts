/** An element of the page's frame, which is known to be there. */
export function element<Kind extends Element = HTMLElement>(id: string): Kind {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`the page has no ${id}`);
  return found as unknown as Kind;
}
