import type { z } from 'zod';
import { nodeAtPath } from '../../text/plain-value';
import { type MapEntry, type Node, type Place, placeBetween, textOf } from '../../text/tree';
import { nearest } from '../names';
import type { Problem } from '../problem';
import { ownVersion } from './newer-version';
import { keysOf } from './schema-shape';
import { shortened } from './shortened';

/** The keys that a schema does not have, each with the nearest that it has. @param path of the map in the value */
export function unknownKeys(
  schema: z.ZodType,
  path: readonly (string | number)[],
  keys: readonly string[],
  node: Node | null,
  here: Place,
): Problem[] {
  const owner = nodeAtPath(node, path).node;
  const list = owner?.kind === 'map' ? owner.entries : [];
  const positions = new Map(list.map((entry, i) => [textOf(entry.key), i]));
  const known = keysOf(schema, path);
  const free = known.filter((key) => !positions.has(key));
  return keys.map((unknown) => {
    const position = positions.get(unknown);
    if (position === undefined) return unknownKey(unknown, undefined, here, known, free);
    return (
      decimalComma(list[position - 1], list[position]) ??
      unknownKey(unknown, list[position].key.place, here, known, free)
    );
  });
}

/** `{ uncertainty: 0,5 }` is a number and a key without a value. */
function decimalComma(before: MapEntry | undefined, { key, value }: MapEntry): Problem | null {
  const whole = before?.value?.kind === 'scalar' && before.value.plain ? before.value : null;
  if (
    whole === null ||
    value !== null ||
    !/^[-+]?\d+$/.test(whole.source) ||
    !/^\d+(\.\d+)?$/.test(key.source)
  )
    return null;
  const digits = key.source;
  const thousands =
    /^\d{3}(\.\d+)?$/.test(digits) &&
    whole.source.replace(/^[-+]/, '').length <= 3 &&
    !/^[-+]?0/.test(whole.source);
  const meant = [
    ...(thousands ? [whole.source + digits] : []),
    ...(digits.includes('.') ? [] : [`${whole.source}.${digits}`]),
  ];
  if (meant.length === 0) return null;
  const place = placeBetween(whole.place, key.place);
  return {
    rule: 'text/wrong-type',
    place,
    message: `\`${before && textOf(before.key)}\`: ${whole.source},${digits} has a comma: write ${meant.join(' or ')}`,
    replacements: meant.map((text) => ({ title: `Write ${text}`, place, text })),
  };
}

/** `free`: those of the known keys that are not given yet. */
export function unknownKey(
  unknown: string,
  place: Place | undefined,
  here: Place,
  known: readonly string[],
  free: readonly string[],
): Problem {
  const meant = nearest(unknown, free);
  const among = known.length > 0 ? `; known: ${known.join(', ')}` : '';
  const instead = meant
    ? `; did you mean \`${meant}\`?`
    : `${among}. It is not known to this version (${ownVersion}); a newer one may know it`;
  return {
    rule: 'text/unknown-key',
    place: place ?? here,
    message: `\`${shortened(unknown)}\` is not a key here${instead}`,
    replacements: meant && place ? [{ title: `Change to ${meant}`, place, text: meant }] : undefined,
  };
}
