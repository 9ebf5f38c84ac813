import type { TextRange } from '../../findings/rule/finding';
import { fileName } from '../../model/file-name';
import { lineStartsOf, linesOf, type Position } from '../../text/lines';
import { entryOf, offsetsOf, textOf } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import type { WorkspaceQuery } from '../../workspace/workspace-query';

/** A job by its order number, or a body by its vehicle. */
interface FileSymbol {
  readonly kind: 'job' | 'vehicle';
  readonly name: string;
  readonly uri: string;
  readonly range: { readonly start: Position; readonly end: Position };
}

const mostSymbols = 200;

/** Jobs and bodies whose order number, vehicle or file name holds the letters of a query in their order; all where it is empty. */
export async function symbolsFor(
  query: WorkspaceQuery,
  letters: string,
  most = mostSymbols,
): Promise<FileSymbol[]> {
  const found: FileSymbol[] = [];
  for (const uri of await query.uris([], false)) {
    if (found.length >= most) break;
    const kind = query.workspace.kindOf(uri);
    if (kind !== 'readings' && kind !== 'chassis') continue;
    const read = await query.readText(uri);
    if (read === null) continue;
    const given = topLevelText(read, kind === 'readings' ? 'order' : 'vehicle');
    const name = given?.text || fileName(uri);
    // the ending that all files share would match half of all words
    if (!holds(`${name} ${fileName(uri).replace(/\.\w+\.yaml$/, '')}`, letters)) continue;
    const lines = linesOf(read);
    const range = given?.range ?? { start: 0, end: 0 };
    found.push({
      kind: kind === 'readings' ? 'job' : 'vehicle',
      name,
      uri,
      range: { start: lines.positionAt(range.start), end: lines.positionAt(range.end) },
    });
  }
  return found;
}

/** Letters in their order, whatever stands between, as editors search. */
function holds(text: string, letters: string): boolean {
  const lower = text.toLowerCase();
  let at = 0;
  for (const letter of letters.toLowerCase().replace(/\s/g, '')) {
    at = lower.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}

/** A word at the top of a file: only its line is parsed, as this is asked of every file at every key stroke. */
function topLevelText(text: string, key: string): { text: string; range: TextRange } | null {
  const start = text.search(new RegExp(`^\\uFEFF?${key}[ \\t]*:`, 'm'));
  if (start < 0) return null;
  const line = text.slice(start, start + lineEnd(text.slice(start, start + 2000)));
  const value = entryOf(parseText(line).root, key)?.value;
  if (value?.kind !== 'scalar') return null;
  const place = offsetsOf(value.place);
  return { text: textOf(value).trim(), range: { start: start + place.start, end: start + place.end } };
}

const lineEnd = (text: string): number => lineStartsOf(text)[1] ?? text.length;
