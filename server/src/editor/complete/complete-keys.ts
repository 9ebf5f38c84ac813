import { timelineKinds } from '@framewright/schemas';
import { keysOf, schemasAt, takes, wordsOf } from '../../model/read/schema-shape';
import type { Analysis } from '../../workspace/workspace';
import { schemaAbove } from '../file-schema';
import { type Abilities, type Completion, inPlace } from './completion-item';
import type { CursorContext } from './cursor-context';

/** Keys whose value stands on the lines below, and what begins it there. */
const below: Record<string, string> = {
  timeline: '- ',
  spans: '- ',
  chains: '- ',
  accepted: '- ',
  readings: '',
  points: '',
  parts: '',
  datum: '',
  'sign-off': '',
  rules: '',
};

/** The keys that a map may have and has not yet. */
export function keyCompletions(
  analysis: Analysis,
  context: CursorContext,
  { snippets }: Abilities,
): Completion[] {
  const { path, siblings, hasColon, item, inFlow, beginsItem } = context;
  const had = new Set(siblings);
  const entryKind = item?.kind ?? '';
  const [schema, rest] = schemaAbove(analysis.kind, path.map(indexed), entryKind);
  // the first key of an entry is its kind
  const isKind = analysis.kind === 'readings' && beginsItem && path.join('/') === 'timeline/-';
  return (isKind ? [...timelineKinds] : keysOf(schema, rest))
    .filter((key) => !had.has(key))
    .map((key) => {
      const block = snippets && !hasColon && !inFlow && Object.hasOwn(below, key);
      const text = hasColon ? key : block ? `${key}:\n  ${below[key]}$0` : `${key}: `;
      const subject = { kind: 'key', path: [...path, key], entryKind } as const;
      return inPlace(context, { label: key, kind: 'key', text, snippet: block, subject });
    });
}

/** The words that a value may be. */
export function wordCompletions(analysis: Analysis, context: CursorContext): Completion[] {
  const { path, item, index, role, beginsItem } = context;
  // on a line of its own a word is a list's item, or what a key above is waiting for
  if (role === 'key' && !beginsItem && context.siblings.length > 0) return [];
  const steps = path.map(indexed);
  if (index !== null) steps[steps.length - 1] = index;
  const [schema, rest] = schemaAbove(analysis.kind, steps, item?.kind ?? '');
  const schemas = schemasAt([schema], rest);
  const words = [...wordsOf(schemas), ...(takes(schemas, 'boolean') ? ['true', 'false'] : [])];
  // what a list has already is not offered again
  const had = new Set(index === null ? [] : context.siblings);
  const offered = [...new Set(words)].filter((word) => !had.has(word));
  return offered.map((word) => inPlace(context, { label: word, kind: 'word', text: word }));
}

const indexed = (step: string): string | number => (step === '-' ? 0 : step);
