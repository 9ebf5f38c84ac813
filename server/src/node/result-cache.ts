import { createHash, randomBytes } from 'node:crypto';
import {
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { homedir } from 'node:os';
import { isAbsolute, join } from 'node:path';
import type { Target } from '../commands/collect';
import type { CheckOptions, FileReport } from '../commands/file-report';
import { settingsPlaces } from '../workspace/ignored';
import type { WitnessedFiles, WitnessedReport } from './witness';

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

/** The user's folder for what can be made again; null where there is none. */
export function cacheFolder(
  environment: NodeJS.ProcessEnv = process.env,
  platform: NodeJS.Platform = process.platform,
  home: () => string = homedir,
): string | null {
  const given = platform === 'win32' ? environment.LOCALAPPDATA : environment.XDG_CACHE_HOME;
  // a path that starts nowhere is no answer (XDG Base Directory Specification)
  if (given !== undefined && isAbsolute(given)) return join(given, 'framewright');
  try {
    return join(home(), platform === 'win32' ? 'AppData/Local' : '.cache', 'framewright');
  } catch {
    return null;
  }
}

interface Entry {
  readonly report: FileReport;
  readonly root: string | null;
  readonly sources: WitnessedReport['sources'];
}

export class ResultCache {
  private readonly folder: string;
  private readonly inside = new Map<string, Promise<boolean>>();
  private kept = 0;
  private isUsable = true;

  /**
   * @param folder of the user's cache
   * @param program tells this program from every other version of it
   * @param files as they are judged, what jobs share read once
   */
  constructor(
    folder: string,
    private readonly program: string,
    private readonly files: WitnessedFiles,
  ) {
    this.folder = join(folder, `results-${layout}`);
  }

  /** What was found when all was as it is now. */
  async found(target: Target, options: CheckOptions): Promise<FileReport | null> {
    if (!this.isUsable) return null;
    const read = await this.files.read(target.uri);
    const id = read.kind === 'text' ? this.files.idOf(target.uri) : null;
    const entry = id === null ? null : entryIn(this.pathOf(target, options, id));
    return entry !== null && (await this.holds(target.uri, entry)) ? entry.report : null;
  }

  async keep(target: Target, options: CheckOptions, made: WitnessedReport): Promise<void> {
    if (!this.isUsable) return;
    const root = await this.files.root(target.uri);
    const entry: Entry = { report: made.report, root, sources: made.sources };
    this.isUsable = written(this.pathOf(target, options, made.id), JSON.stringify(entry));
    this.kept++;
  }

  /** Called at the end: keeps the folder small. */
  sweep(now = Date.now()): void {
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

  private pathOf({ uri, path }: Target, options: CheckOptions, id: string): string {
    const { open, summaries, verbose } = options;
    const name = createHash('sha256')
      .update(JSON.stringify([this.program, uri, path, open, summaries, verbose, id]))
      .digest('hex');
    return join(this.folder, name.slice(0, 2), name.slice(2));
  }

  private async holds(uri: string, { root, sources }: Entry): Promise<boolean> {
    if ((await this.files.root(uri)) !== root) return false;
    const known = new Set(sources.map(([source]) => source));
    for (const place of await settingsPlaces(this.files, uri)) {
      if (known.has(place)) continue;
      const read = await this.files.read(place);
      if (read.kind === 'text' && (await this.isInside(place, root))) return false;
    }
    for (const [source, id] of sources) {
      const read = await this.files.read(source);
      if (read.kind !== 'text' || this.files.idOf(source) !== id) return false;
      if (!(await this.isInside(source, root))) return false;
    }
    return true;
  }

  private isInside(uri: string, root: string | null): Promise<boolean> {
    if (root === null) return Promise.resolve(true);
    const key = `${root}\n${uri}`;
    let answer = this.inside.get(key);
    if (answer === undefined) {
      answer = this.files.leadsOut(uri, root).then((leads) => !leads);
      this.inside.set(key, answer);
    }
    return answer;
  }
}

const sumOf = (text: string): string => createHash('sha256').update(text).digest('base64url');
const sumLength = sumOf('').length;

/** Its sum comes first: half an entry, or one that somebody wrote into, is none. */
function entryIn(path: string): Entry | null {
  try {
    const text = readFileSync(path, 'utf8');
    const body = text.slice(sumLength);
    return text.slice(0, sumLength) === sumOf(body) ? JSON.parse(body) : null;
  } catch {
    return null;
  }
}

/** Put in place by renaming, so that who reads it meets a whole one; false where nothing can be kept. */
function written(path: string, body: string): boolean {
  const temporary = `${path}.${randomBytes(6).toString('hex')}`;
  try {
    mkdirSync(join(path, '..'), { recursive: true, mode: 0o700 });
    writeFileSync(temporary, `${sumOf(body)}${body}`, { mode: 0o600 });
    renameSync(temporary, path);
    return true;
  } catch {
    rmSync(temporary, { force: true });
    return false;
  }
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
