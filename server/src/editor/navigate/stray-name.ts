import { raiserOf } from '../../findings/rule-list';
import { fileName } from '../../model/file-name';
import { nameOf } from '../../model/names';
import type { NamedPlace } from '../../model/resolve/job-mentions';
import { linesOf } from '../../text/lines';
import { offsetsOf } from '../../text/tree';
import type { Unjudged } from '../../workspace/workspace';
import { mentionsOf } from '../mentions';

/**
 * A place that seems to name a point or part and could not be read as such, because the text around it has an error: a second key of
 * the same name, a row below a mistyped key. It would be left behind under the old name. Null in a file whose text is sound, where
 * every name is known.
 */
export function strayName(
  file: Exclude<Unjudged, { kind: 'settings' }>,
  named: NamedPlace,
): { readonly refused: string } | null {
  const { problems } = file.kind === 'readings' ? file.job : file.sheet;
  if (!problems.some(({ rule }) => raiserOf(rule) === 'text')) return null;
  const name = nameOf(named.id);
  const known = mentionsOf(file)
    .filter(({ id }) => nameOf(id) === name)
    .map(({ place }) => offsetsOf(place));
  for (const at of wholeWords(file.text, name)) {
    if (known.some(({ start, end }) => at >= start && at < end)) continue;
    const { line } = linesOf(file.text).positionAt(at);
    return {
      refused: `${fileName(file.uri)}, line ${line + 1}: ${name} is where the text has an error; correct that first`,
    };
  }
  return null;
}

/** Where a name stands alone as a key or value, side or not, outside of comments: offsets of its first letter. */
function wholeWords(text: string, name: string): number[] {
  const word = escaped(name);
  // looked back from behind the name, so that only where it stands the blanks before it are counted
  const pattern = new RegExp(
    `${word}(?<=(?:^|[[{,]|- |: )[ \\t"']*(?:&\\S+ )?${word})(?:\\.[LR])?(?=["']?[ \\t]*(?:[:,\\]}]|$)|["']?[ \\t]+#)`,
    'gm',
  );
  return [...text.matchAll(pattern)].map(({ index }) => index).filter((at) => !isComment(text, at));
}

/** A name as it stands, whatever it is made of. */
const escaped = (name: string): string => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

const isComment = (text: string, at: number): boolean =>
  /(^|\s)#/.test(text.slice(text.lastIndexOf('\n', at - 1) + 1, at));
