/** A map that holds so many entries at the most; those used longest ago go first. */
export class MostRecent<Key, Value> {
  private readonly entries = new Map<Key, Value>();
  /** Most questions repeat the last one, and an entry that is moved leaves a hole that the map has to be cleared of. */
  private newest: Key | undefined;

  constructor(private readonly most: number) {}

  get(key: Key): Value | undefined {
    const value = this.entries.get(key);
    if (value !== undefined && key !== this.newest) this.set(key, value);
    return value;
  }

  set(key: Key, value: Value): void {
    this.entries.delete(key);
    this.entries.set(key, value);
    this.newest = key;
    if (this.entries.size <= this.most) return;
    const [oldest] = this.entries.keys();
    this.entries.delete(oldest);
  }

  /** The value of a key; made where there is none. */
  remembered(key: Key, make: () => Value): Value {
    const known = this.get(key);
    if (known !== undefined) return known;
    const value = make();
    this.set(key, value);
    return value;
  }
}
