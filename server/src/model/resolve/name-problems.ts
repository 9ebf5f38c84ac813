import type { Place } from '../../text/tree';
import { meantIds, resolvedId } from '../names';
import type { Problem } from '../problem';
import type { NamedPlace } from './job-mentions';

/** For so many unknown names a near one is looked for; past this the wrong file is named, and nothing is likely meant. */
export const mostSuggested = 300;

/** What is wrong with an id where it was typed, with the names that may be meant as fixes; null where it is known. */
export function nameProblem(
  { kind, id, place, bothSides }: NamedPlace,
  known: ReadonlyMap<string, unknown>,
  suggesting = true,
): Problem | null {
  const found = resolvedId(id, known, bothSides);
  if (found.kind === 'found') return null;
  if (found.kind === 'unknown')
    return unknownName(kind, id, place, suggesting ? meantIds(id, known, bothSides) : []);
  const { ids } = found;
  const message =
    ids.length > 1
      ? `${id} exists on both sides: write ${ids.join(' or ')}`
      : `${id} exists on one side only: write ${ids[0]} if that is the one`;
  return { rule: 'name/needs-side', place, message, replacements: changes(ids, place) };
}

/** `meant`: the names that it may mean, likeliest first. */
export const unknownName = (
  what: 'point' | 'part',
  id: string,
  place: Place,
  meant: readonly string[],
): Problem => ({
  rule: what === 'point' ? 'name/unknown-point' : 'name/unknown-part',
  place,
  message: `there is no ${what} ${id}${meant.length > 0 ? `; did you mean ${meant.join(' or ')}?` : ''}`,
  replacements: changes(meant, place),
});

const changes = (ids: readonly string[], place: Place) =>
  ids.map((text) => ({ title: `Change to ${text}`, place, text }));
