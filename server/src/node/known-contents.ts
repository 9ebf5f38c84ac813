import { type BigIntStats, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { pathOf } from './files';
import { keptAs, keptJson, sumOf } from './kept-file';

/**
 * What files of a disk hold, by its sum, without reading them: what the system says of a file (size, times, number) is kept with the sum of what
 * was read then, as git's index does. While all of it is the same, so is the sum. A file that was changed shortly before it was read may be
 * changed once more within one tick of the clock and look the same: of such a file nothing is kept.
 */

/** The layout of what is kept; another one has other names. */
const layout = 1;

/** The clocks of some file systems tick every two seconds. */
const longestTickMs = 2000;

/** Past this only files are kept that were asked for in this run. */
const mostKept = 20_000;

type Signed = Pick<BigIntStats, 'dev' | 'ino' | 'size' | 'mtimeNs' | 'ctimeNs'>;

/** What the system says of a file; null where there is no ordinary one. */
type Look = (path: string) => Signed | null;

const ordinary: Look = (path) => {
  const status = statSync(path, { bigint: true, throwIfNoEntry: false });
  return status?.isFile() ? status : null;
};

type Known = readonly [signature: string, sum: string];

const signatureOf = ({ dev, ino, size, mtimeNs, ctimeNs }: Signed): string =>
  `${dev} ${ino} ${size} ${mtimeNs} ${ctimeNs}`;

export class KnownContents {
  private readonly path: string;
  private readonly kept: ReadonlyMap<string, Known>;
  private readonly seen = new Map<string, Known>();
  private isNews = false;

  /**
   * @param folder of what is kept
   * @param place where the program was started: each place has a file of its own
   */
  constructor(
    folder: string,
    place: string,
    private readonly look: Look = ordinary,
    private readonly now: () => number = Date.now,
  ) {
    this.path = join(folder, `contents-${layout}`, sumOf(place));
    this.kept = new Map(keptJson<[string, Known][]>(this.path) ?? []);
  }

  /** The sum of a file's bytes; null where it cannot be read. */
  sumOf(uri: string): string | null {
    const path = pathOf(uri);
    if (path === null) return null;
    try {
      const looked = this.look(path);
      if (looked === null) return null;
      const signature = signatureOf(looked);
      const known = this.kept.get(uri);
      if (known?.[0] === signature) {
        this.seen.set(uri, known);
        return known[1];
      }
      return this.read(uri, path, looked);
    } catch {
      return null;
    }
  }

  private read(uri: string, path: string, looked: Signed): string {
    const atMs = this.now();
    const sum = sumOf(readFileSync(path));
    const isOld = (ns: bigint): boolean => Number(ns / 1_000_000n) + longestTickMs < atMs;
    if (isOld(looked.mtimeNs) && isOld(looked.ctimeNs)) {
      this.seen.set(uri, [signatureOf(looked), sum]);
      this.isNews = true;
    }
    return sum;
  }

  /** Called at the end; what cannot be kept is read again. */
  keep(): void {
    if (!this.isNews) return;
    const all = new Map([...this.kept, ...this.seen]);
    keptAs(this.path, JSON.stringify([...(all.size > mostKept ? this.seen : all)]));
  }
}
