import { printable } from '../text/printable';

/** HTML or SVG that was put together here, and may stand in a page as it is. */
export interface Markup {
  readonly markup: string;
}

type Part = Markup | string | number | null | readonly (Markup | string | number | null)[];

/**
 * A template whose gaps are data: text is escaped, for content and for attributes in double quotes alike; only what another template
 * made goes in as markup. Null leaves nothing. Text of a file cannot become markup on any other way.
 */
export function markup(strings: TemplateStringsArray, ...parts: readonly Part[]): Markup {
  let text = strings[0];
  for (let i = 0; i < parts.length; i++) text += written(parts[i]) + strings[i + 1];
  return { markup: text };
}

function written(part: Part): string {
  if (part === null) return '';
  if (typeof part === 'string') return escaped(part);
  if (typeof part === 'number') return String(part);
  return 'markup' in part ? part.markup : part.map(written).join('');
}

const special: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text as data: nothing in it is markup, an entity, or steers the direction of the page. */
export const escaped = (text: string): string => printable(text).replace(/[&<>"']/g, (each) => special[each]);

/** Text of a file in a sentence of ours: whichever way it is written, the sentence around it keeps its own. */
export const quoted = (text: string): Markup => markup`<bdi>${text}</bdi>`;

/** A text on one line, cut to a length that a heading or a column has room for; what is whole stands elsewhere. */
export function shortened(text: string, most: number): string {
  const shown = printable(text);
  const characters = [...shown];
  return characters.length <= most ? shown : `${characters.slice(0, most - 1).join('')}…`;
}

/** A coordinate of a drawing, px, to a hundredth. */
export const px = (value: number): number => Math.round(value * 100) / 100 || 0;
