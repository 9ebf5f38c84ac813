import { readdirSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Target } from '../commands/collect';
import type { CheckOptions, FileReport } from '../commands/file-report';
import { once } from '../memory/once';
import { type Files, fileKind } from '../workspace/files';
import { settingsPlaces } from '../workspace/ignored';
import { folderOf } from '../workspace/uris';
import { keptAs, keptIn, sumOf } from './kept-file';
import type { WitnessedReport } from './witness';

/**
 * Reports of `check` that were made before, in the user's cache folder. An entry is named by all that a report depends on and that is known
 * before anything is judged: program, options, names and the file's own text. The other files that it was made from it holds itself, with what they were; it
 * counts only while each is the same. One that is damaged, or that cannot be read, is as none: the file is judged.
 */

/** The layout of entries; another one has other names. */
const layout = 1;

/** When so many reports were kept, or a day has gone, the folder is looked through. */
const keptBetweenSweeps = 500;
const dayMs = 24 * 3600 * 1000;
/** What has not been made anew for so long goes, and the oldest until there is room, bytes. */
const oldestMs = 30 * dayMs;
const mostBytes = 96 * 1024 * 1024;
const leastFreedBytes = mostBytes / 4;

/** What is kept there is swept from time to time, in each of its folders. */
export const resultsFolder = (folder: string): string => join(folder, `results-${layout}`);

/** Two lines of JSON: the chassis files that it was made from, and the report. */
type Sources = WitnessedReport['sources'];

const lineEnd = 10;

/** Files as they are now, without their texts being kept. */
interface Identified extends Pick<Files, 'root' | 'leadsOut'> {
  /** Of the text; null where there is none. */
  idOf(uri: string): Promise<string | null>;
  /** Called when all was asked. */
  atEnd?(): void;
}

export class ResultCache {
  private readonly folder: string;
  /** By folder, what settings count for its files. */
  private readonly settings = new Map<string, Promise<Around>>();
  /** By file, its text's identity; null where it may not be used. */
  private readonly sources = new Map<string, Promise<string | null>>();
  private kept = 0;
  private isUsable = true;

  /**
   * @param folder of the user's cache
   * @param program tells this program from every other version of it
   */
  constructor(
    folder: string,
    private readonly program: string,
    private readonly files: Identified,
  ) {
    this.folder = resultsFolder(folder);
  }

  /** What was found when all was as it is now, to be read when it is its turn: a thousand reports are never in memory at once. */
  async found(target: Target, options: CheckOptions): Promise<(() => FileReport) | null> {
    if (!this.isUsable) return null;
    const id = await this.files.idOf(target.uri);
    if (id === null) return null;
    const around = await this.around(target.uri);
    const entry = keptIn(this.pathOf(target, options, [around.root, around.settings, id]));
    if (entry === null) return null;
    const end = entry.indexOf(lineEnd);
    const sources: Sources = JSON.parse(entry.toString('utf8', 0, end));
    for (const [uri, was] of sources) if ((await this.source(uri, around.root)) !== was) return null;
    return () => JSON.parse(entry.toString('utf8', end + 1));
  }

  async keep(target: Target, options: CheckOptions, made: WitnessedReport): Promise<void> {
    if (!this.isUsable) return;
    const { root, settings } = await this.around(target.uri);
    const isSettings = ([uri]: readonly [string, string]) => fileKind(uri) === 'settings';
    // they changed since the start: what was judged by is not what is asked for
    if (JSON.stringify(made.sources.filter(isSettings)) !== JSON.stringify(settings)) return;
    const sources: Sources = made.sources.filter((source) => !isSettings(source));
    const path = this.pathOf(target, options, [root, settings, made.id]);
    this.isUsable = keptAs(path, `${JSON.stringify(sources)}\n${JSON.stringify(made.report)}`);
    this.kept++;
  }

  /** Called at the end: keeps the folder small. */
  sweep(now = Date.now()): void {
    this.files.atEnd?.();
    if (this.kept === 0 || !this.isUsable) return;
    const stamp = join(this.folder, 'swept');
    const last = statSync(stamp, { throwIfNoEntry: false })?.mtimeMs ?? 0;
    if (this.kept < keptBetweenSweeps && now - last < dayMs) return;
    try {
      writeFileSync(stamp, '');
      utimesSync(stamp, now / 1000, now / 1000);
      swept(this.folder, now);
    } catch {
      // another run is at it, or it may not be written: another time
    }
  }

  private pathOf({ uri, path }: Target, options: CheckOptions, basis: readonly unknown[]): string {
    const { open, summaries, verbose } = options;
    const name = sumOf(JSON.stringify([this.program, uri, path, open, summaries, verbose, basis]));
    return join(this.folder, name.slice(0, 2), name.slice(2));
  }

  private around(uri: string): Promise<Around> {
    return once(this.settings, folderOf(uri), async () => {
      const root = await this.files.root(uri);
      const settings: [string, string][] = [];
      for (const place of await settingsPlaces(this.files, uri)) {
        const id = await this.source(place, root);
        if (id !== null) settings.push([place, id]);
      }
      return { root, settings };
    });
  }

  private source(uri: string, root: string | null): Promise<string | null> {
    return once(this.sources, `${root} ${uri}`, async () => {
      const id = await this.files.idOf(uri);
      return id !== null && root !== null && (await this.files.leadsOut(uri, root)) ? null : id;
    });
  }
}

interface Around {
  readonly root: string | null;
  readonly settings: WitnessedReport['sources'];
}

/** Takes away what is old, and the oldest where there is too much. */
function swept(folder: string, now: number): void {
  const entries = readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .flatMap((each) => readdirSync(join(folder, each.name)).map((name) => join(folder, each.name, name)))
    .flatMap((path) => {
      const status = statSync(path, { throwIfNoEntry: false });
      return status === undefined ? [] : [{ path, bytes: status.size, at: status.mtimeMs }];
    })
    .sort((a, b) => a.at - b.at);
  const all = entries.reduce((sum, { bytes }) => sum + bytes, 0);
  let excess = all > mostBytes ? all - mostBytes + leastFreedBytes : 0;
  for (const { path, bytes, at } of entries) {
    if (now - at < oldestMs && excess <= 0) continue;
    rmSync(path, { force: true });
    excess -= bytes;
  }
}
