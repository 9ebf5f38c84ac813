/**
 * One value for each object, kept on the object itself under a name that nothing else can see. A copy of the object does not carry it
 * along, and the object must not be frozen.
 *
 * Why not a WeakMap: V8's quick collection counts everything that a WeakMap holds as alive, whether its keys are or not. In a long check, or
 * while a file is typed, everything would stay in memory until the next full collection.
 */
export class Slot<Key extends object, Value> {
  private readonly name = Symbol();

  get(key: Key): Value | undefined {
    return (key as Record<symbol, Value | undefined>)[this.name];
  }

  set(key: Key, value: Value): void {
    Object.defineProperty(key, this.name, { value, configurable: true });
  }
}
