import type { TextRange } from '../../findings/rule/finding';
import { offsetsOf, type Place } from '../../text/tree';

export interface Reference {
  readonly range: TextRange;
  /** The entry that gives the point, part or distance, rather than a place that names or reads it. */
  readonly isDefinition: boolean;
}

export interface FileReferences {
  readonly uri: string;
  readonly text: string;
  readonly references: readonly Reference[];
}

/** References at places, in text order; what an alias repeats stands there once. */
export function referencesTo(
  places: readonly Place[],
  isDefinition: (range: TextRange) => boolean,
): Reference[] {
  const found = new Map<number, Reference>();
  for (const place of places) {
    const range = offsetsOf(place);
    found.set(range.start, { range, isDefinition: isDefinition(range) });
  }
  return [...found.values()].sort((a, b) => a.range.start - b.range.start);
}
