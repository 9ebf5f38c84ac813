import { Memory } from './memory';

/**
 * A function that works out its answer once for each object it is asked about and gives the same answer again. The answer
 * must depend on the object alone; it is forgotten with the object.
 */
export function oncePer<Key extends object, Value>(work: (key: Key) => Value): (key: Key) => Value {
  const known = new Memory<Key, { readonly value: Value }>();
  return (key) => {
    let found = known.get(key);
    if (found === undefined) {
      found = { value: work(key) };
      known.set(key, found);
    }
    return found.value;
  };
}
