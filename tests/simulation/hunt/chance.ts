import type { Vec3 } from '../../../server/src/geometry/vector';

/** Random numbers of the hunt's own: sfc32 (C. Doty-Humphrey, PractRand, public domain), normals by the polar method (Marsaglia & Bray 1964). */
export class Chance {
  private a: number;
  private b: number;
  private c: number;
  private counter = 1;

  constructor(seed: number, job: number) {
    this.a = seed | 0;
    this.b = Math.imul(job + 1, 0x2545f491);
    this.c = seed ^ Math.imul(job, 0x7feb352d);
    for (let i = 0; i < 20; i++) this.next();
  }

  private next(): number {
    const t = (((this.a + this.b) | 0) + this.counter) | 0;
    this.counter = (this.counter + 1) | 0;
    this.a = this.b ^ (this.b >>> 9);
    this.b = (this.c + (this.c << 3)) | 0;
    this.c = (((this.c << 21) | (this.c >>> 11)) + t) | 0;
    return (t >>> 0) / 4294967296;
  }

  between(from: number, to: number): number {
    return from + (to - from) * this.next();
  }

  /** A whole number, both ends included. */
  whole(from: number, to: number): number {
    return from + Math.floor(this.next() * (to - from + 1));
  }

  one<T>(items: readonly T[]): T {
    return items[this.whole(0, items.length - 1)];
  }

  happens(share: number): boolean {
    return this.next() < share;
  }

  normal(deviation: number): number {
    for (;;) {
      const [x, y] = [this.between(-1, 1), this.between(-1, 1)];
      const s = x * x + y * y;
      if (s > 0 && s < 1) return deviation * x * Math.sqrt((-2 * Math.log(s)) / s);
    }
  }

  normals(deviation: number): Vec3 {
    return [this.normal(deviation), this.normal(deviation), this.normal(deviation)];
  }

  /** Of this length, in any direction. */
  along(length: number): Vec3 {
    const v = this.normals(1);
    const scale = length / Math.hypot(...v);
    return [v[0] * scale, v[1] * scale, v[2] * scale];
  }

  shuffled<T>(items: readonly T[]): T[] {
    const left = [...items];
    return items.map(() => left.splice(this.whole(0, left.length - 1), 1)[0]);
  }
}
