/**
 * What was concluded from an object, kept with the object itself under a name that nothing else can see. A WeakMap would say the same,
 * but V8's quick collection counts all that a WeakMap holds as alive, whether its keys are or not: of a long check, or of a file being
 * typed, everything would stay until the next full collection.
 *
 * A copy of the object does not carry it along.
 */
export class Memory<Key extends object, Value> {
  private readonly slot = Symbol();

  get(key: Key): Value | undefined {
    return (key as Record<symbol, Value | undefined>)[this.slot];
  }

  set(key: Key, value: Value): void {
    Object.defineProperty(key, this.slot, { value, configurable: true });
  }
}

/** The same text on its own: V8 makes no copy of a piece of a text, but lets it stand for a stretch of the whole, and keeps that. */
export const copyOf = (piece: string): string => ` ${piece}`.slice(1);
