/** What the language server tells of the workspace's files (`framewright/jobs`, `framewright/jobsChanged`), and the list kept of it. */
import type { Entry, Listing, ListingChange } from '@framewright/schemas/wire';
import { chassisEnding, jobEnding } from '../patterns';

/** What changed: `null`, which files there are or in which order; else the entries that read differently in their places. */
export type Change = readonly Entry[] | null;

const nothing: Listing = { entries: [], left: 0, unread: [], checking: false };

/** The newest word on each file, in the two orders of the views; `same` makes one name of a file's several spellings. */
export class EntryList {
  private byUri = new Map<string, Entry>();
  private rest: Omit<Listing, 'entries'> = nothing;

  constructor(private readonly same: (uri: string) => string = (uri) => uri) {}

  get left(): number {
    return this.rest.left;
  }

  /** What stands above the list: what is not in it, and that it grows; undefined where it is whole. */
  get message(): string | undefined {
    const { left, unread, checking } = this.rest;
    const missing = [
      ...(left > 0 ? [`${left} more files are not listed.`] : []),
      ...(unread.length > 0 ? [unreadWords(unread)] : []),
    ];
    if (missing.length > 0) return missing.join(' ');
    return checking ? 'Reading the workspace…' : undefined;
  }

  get checking(): boolean {
    return this.rest.checking;
  }

  /** Takes a whole listing in place of all that was. */
  take({ entries, left, unread, checking }: Listing = nothing): void {
    this.byUri = new Map(entries.map((entry) => [this.same(entry.uri), entry]));
    this.rest = { left, unread, checking };
  }

  apply({ entries, gone, left, unread, checking }: ListingChange): Change {
    const before = this.places();
    for (const uri of gone) this.byUri.delete(this.same(uri));
    for (const entry of entries) this.byUri.set(this.same(entry.uri), entry);
    this.rest = { left, unread, checking };
    const after = this.places();
    const moved = before.length !== after.length || before.some((uri, k) => uri !== after[k]);
    return moved ? null : entries;
  }

  get(uri: string): Entry | undefined {
    return this.byUri.get(this.same(uri));
  }

  /** Work to do before what is closed, each by its name. */
  jobs(): Entry[] {
    const of = [...this.byUri.values()].filter(isOfJob);
    return of.sort((a, b) => Number(isClosed(a)) - Number(isClosed(b)) || byName(nameOf(a), nameOf(b)));
  }

  chassis(): Entry[] {
    return [...this.byUri.values()]
      .filter((entry) => !isOfJob(entry))
      .sort((a, b) => byName(nameOf(a), nameOf(b)));
  }

  private places(): string[] {
    return [...this.jobs(), ...this.chassis()].map(({ kind, uri }) => `${kind} ${this.same(uri)}`);
  }
}

const unreadWords = ([first, ...others]: Listing['unread']): string => {
  const more = others.length > 0 ? `, and ${others.length} more (see the log)` : '';
  return `Not looked into: ${readable(first.uri)} (${first.message})${more}.`;
};

const isOfJob = (entry: Entry): boolean =>
  entry.kind === 'job' ||
  (entry.kind === 'unchecked' && entry.of === 'job') ||
  (entry.kind === 'unreadable' && !entry.uri.endsWith(chassisEnding));

const isClosed = (entry: Entry): boolean =>
  entry.kind === 'job' && (entry.state === 'signed' || entry.state === 'sign-off-fails');

/** What people call it: a job by its order, a body by its vehicle, else the file's name. */
export const nameOf = (entry: Entry): string =>
  (entry.kind === 'job' ? entry.order : entry.kind === 'chassis' ? entry.vehicle : null) ||
  fileName(entry.uri);

/** The file's name without the ending that all of its kind have. */
export const fileName = (uri: string): string => {
  const whole = uri.slice(uri.lastIndexOf('/') + 1);
  const ending = [jobEnding, chassisEnding].find((each) => whole.toLowerCase().endsWith(each)) ?? '';
  return readable(whole.slice(0, whole.length - ending.length));
};

const readable = (uri: string): string => {
  try {
    return decodeURIComponent(uri);
  } catch {
    return uri;
  }
};

const { compare: byName } = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });
