import { plainOrQuoted } from '../../text/edits';
import { fileKind } from '../../workspace/files';
import { canonicalUri, relativePath } from '../../workspace/uris';
import type { Analysis } from '../../workspace/workspace';
import { entryCompletions, rowCompletions, valueSnippets } from './complete-entries';
import { keyCompletions, wordCompletions } from './complete-keys';
import { nameCompletions } from './complete-names';
import { ruleCompletions } from './complete-rules';
import { type Abilities, type Completion, inPlace } from './completion-item';
import { type CursorContext, cursorContext } from './cursor-context';

/** What may be written at an offset, likeliest first. */
export async function completionsAt(
  analysis: Analysis,
  offset: number,
  abilities: Abilities,
): Promise<Completion[]> {
  const context = cursorContext(analysis.text, offset);
  const { role, path, typed } = context;
  const rules = ruleCompletions(analysis, context, offset);
  if (rules !== null || role === 'comment') return rules ?? [];
  // inside quotes a name is already being written by other rules
  if (/^["']/.test(typed)) return [];
  if (
    role === 'value' &&
    /^(?:readings\/chassis|chassis\/extends)$/.test(`${analysis.kind}/${path.join('/')}`)
  )
    return fileCompletions(analysis, context, await abilities.chassisFiles());
  const rows = rowCompletions(analysis, context, abilities);
  if (rows !== null) return rows;
  return [
    ...entryCompletions(analysis, context, abilities),
    ...valueSnippets(analysis, context, abilities),
    ...nameCompletions(analysis, context),
    ...wordCompletions(analysis, context),
    ...(role === 'key' ? keyCompletions(analysis, context, abilities) : []),
  ];
}

function fileCompletions(analysis: Analysis, context: CursorContext, uris: readonly string[]): Completion[] {
  const own = canonicalUri(analysis.uri);
  // as far as it is typed already
  const here = context.typed.startsWith('./') ? './' : '';
  return uris
    .filter((uri) => fileKind(uri) === 'chassis' && canonicalUri(uri) !== own)
    .map((uri) => relativePath(analysis.uri, uri))
    .sort((a, b) => steps(a) - steps(b) || (a < b ? -1 : 1))
    .map((path) => (path.startsWith('../') ? path : here + path))
    .map((path) => inPlace(context, { label: path, kind: 'file', text: plainOrQuoted(path) }));
}

const steps = (path: string): number => path.split('/').length;
