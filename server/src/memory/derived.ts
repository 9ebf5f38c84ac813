import { Slot } from './slot';

/**
 * A function that remembers its last answer for each object, and gives it again while everything else that it is given is the
 * same (`===`).
 *
 * The answer is kept with the object `key` and is forgotten with it. It must depend on nothing but `key` and the basis. Only the
 * answer for the last basis is kept. If `make` throws, nothing is remembered.
 */
export function derived<Key extends object, Basis extends readonly unknown[], Value>(
  make: (key: Key, ...basis: Basis) => Value,
): (key: Key, ...basis: Basis) => Value {
  const slot = new Slot<Key, { readonly basis: readonly unknown[]; readonly value: Value }>();
  return (key, ...basis) => {
    const last = slot.get(key);
    if (last !== undefined && isSame(last.basis, basis)) return last.value;
    const value = make(key, ...basis);
    // what is given is asked a thousand times an edit: V8 makes no list of it where none is kept
    const kept: unknown[] = [];
    for (let i = 0; i < basis.length; i++) kept.push(basis[i]);
    slot.set(key, { basis: kept, value });
    return value;
  };
}

/**
 * The same for a question that is a new object each time: it is known by an object that lives on and by all else that its answer depends on.
 * @param known that object, then the basis
 */
export function derivedFrom<Question, Value>(
  known: (question: Question) => readonly [key: object, ...basis: unknown[]],
  make: (question: Question) => Value,
): (question: Question) => Value {
  const slot = new Slot<object, { readonly basis: readonly unknown[]; readonly value: Value }>();
  return (question) => {
    const basis = known(question);
    const last = slot.get(basis[0]);
    if (last !== undefined && isSame(last.basis, basis)) return last.value;
    const value = make(question);
    slot.set(basis[0], { basis, value });
    return value;
  };
}

function isSame(a: readonly unknown[], b: readonly unknown[]): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return a.length === b.length;
}

/**
 * What an object makes with each of a list of others. An edit changes few of them: the answer with one that was there at the last asking is
 * not made anew. Of the others only those of the last list are held.
 * @param make must depend on nothing but the two and the basis
 */
export function derivedWithEach<
  Key extends object,
  Other extends object,
  Basis extends readonly unknown[],
  Value,
>(
  make: (key: Key, other: Other, ...basis: Basis) => Value,
): (key: Key, others: readonly Other[], ...basis: Basis) => readonly Value[] {
  const slot = new Slot<Key, Pairs<Other, Value>>();
  return (key, others, ...basis) => {
    const last = slot.get(key);
    const known = last !== undefined && isSame(last.basis, basis) ? last : null;
    if (known !== null && isSame(known.others, others)) return known.values;
    const values = others.map((other, i) => {
      const at = known === null ? -1 : known.others[i] === other ? i : known.others.indexOf(other);
      return at === -1 ? make(key, other, ...basis) : known!.values[at];
    });
    slot.set(key, { others: [...others], basis, values });
    return values;
  };
}

interface Pairs<Other, Value> {
  readonly others: readonly Other[];
  readonly basis: readonly unknown[];
  readonly values: readonly Value[];
}
