import { type Markup, markup } from '../markup';

/** How a mark is told in words: by what a browser shows on its own, or by what the page shows. */
export type Telling = 'title' | 'label';

/** An element of a picture that is told in words. */
export const told = (telling: Telling, attributes: Markup, text: string, inner: Markup): Markup =>
  telling === 'title'
    ? markup`<g ${attributes} role="img"><title>${text}</title>${inner}</g>`
    : markup`<g ${attributes} role="img" aria-label="${text}">${inner}</g>`;
