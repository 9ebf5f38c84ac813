/** Counts by name: how many of how many. Whole numbers only, so that the order in which they are added does not matter. */
export class Tally {
  private readonly counts = new Map<string, [hits: number, of: number]>();

  count(key: readonly (string | number)[], hit: boolean): void {
    this.add(key.join(' | '), hit ? 1 : 0, 1);
  }

  of(...key: readonly (string | number)[]): Count {
    const [hits, of] = this.counts.get(key.join(' | ')) ?? [0, 0];
    return { hits, of };
  }

  entries(): [string, [number, number]][] {
    return [...this.counts];
  }

  merge(entries: Iterable<[string, [number, number]]>): void {
    for (const [key, [hits, of]] of entries) this.add(key, hits, of);
  }

  private add(key: string, hits: number, of: number): void {
    const known = this.counts.get(key);
    if (known === undefined) this.counts.set(key, [hits, of]);
    else {
      known[0] += hits;
      known[1] += of;
    }
  }
}

export interface Count {
  readonly hits: number;
  readonly of: number;
}
