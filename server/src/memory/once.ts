/** The value of a key in a map that lives as long as one run of a command; made where there is none. */
export function once<Value>(known: Map<string, Value>, key: string, make: () => Value): Value {
  let value = known.get(key);
  if (value === undefined) {
    value = make();
    known.set(key, value);
  }
  return value;
}
