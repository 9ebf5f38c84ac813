/** Files that wait for something, in the order in which they came; urgent ones first. Named by one spelling of their URI. */
export class DueFiles {
  private readonly urgent = new Set<string>();
  private readonly others = new Set<string>();

  get size(): number {
    return this.urgent.size + this.others.size;
  }

  has(key: string): boolean {
    return this.urgent.has(key) || this.others.has(key);
  }

  add(key: string, isUrgent = false): void {
    if (isUrgent) {
      this.others.delete(key);
      this.urgent.add(key);
    } else if (!this.urgent.has(key)) this.others.add(key);
  }

  delete(key: string): void {
    this.urgent.delete(key);
    this.others.delete(key);
  }

  clear(): void {
    this.urgent.clear();
    this.others.clear();
  }

  /** The next one, which waits no longer. */
  take(): { key: string; isUrgent: boolean } | null {
    for (const [set, isUrgent] of [
      [this.urgent, true],
      [this.others, false],
    ] as const) {
      const [key] = set;
      if (key === undefined) continue;
      set.delete(key);
      return { key, isUrgent };
    }
    return null;
  }
}
