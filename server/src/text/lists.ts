/** `a`, `a and b`, `a, b and c`. */
export function listPhrase(items: readonly string[], last = 'and'): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} ${last} ${items[items.length - 1]}`;
}

/** A list cut to a length a person reads. */
export const shortList = (items: readonly string[], most = 8): string =>
  items.length <= most
    ? listPhrase(items)
    : `${items.slice(0, most).join(', ')} and ${items.length - most} more`;
