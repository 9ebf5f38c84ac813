import { entryOf, type TextTree } from '../text/tree';
import { parseText } from '../text/yaml/parse';

/**
 * What stands above the timeline of a job, places as in the whole text: of thousands of jobs most are about another body, and
 * need not be read through to tell. Null where only the whole text tells which chassis file it names.
 */
export function jobHead(text: string): TextTree | null {
  const timeline = text.search(/^timeline[ \t]*:/m);
  // a second key of that name may stand anywhere
  if (timeline < 0 || text.match(/^\uFEFF?(?:\?[ \t]+)?["']?chassis\b/gm)?.length !== 1) return null;
  const head = parseText(text.slice(0, timeline));
  return head.problems.length === 0 && entryOf(head.root, 'chassis') ? head : null;
}
