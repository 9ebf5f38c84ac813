import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { posix, relative, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Files, fileKind, neverLookedInto, type ReadResult } from '../workspace/files';
import { pathOf } from './files';
import { blobAt, runGit } from './git';

/** What is staged, as files: a commit is judged by what will be in it, whatever stands in the work tree. */

interface Entry {
  readonly id: string;
  readonly isLink: boolean;
  readonly isInConflict: boolean;
}

const mostLinks = 20;

/**
 * @param root folder of the repository
 * @throws where git cannot tell, with what it says
 */
export async function stagedFiles(root: string): Promise<Files & { placeOf(uri: string): Promise<string> }> {
  const { code, stdout, stderr } = await runGit(root, ['ls-files', '-s', '-z']);
  if (code !== 0) throw new Error(stderr);
  const staged = new Staged(root, entriesIn(stdout.toString()));
  const rootUri = pathToFileURL(`${root}/`).href;
  return {
    read: (uri) => staged.read(uri),
    list: async (folderUri) => ({ uris: staged.list(folderUri), unread: [] }),
    root: async () => rootUri,
    leadsOut: async (uri) => (await staged.place(uri)) === null,
    placeOf: async (uri) => (await staged.place(uri)) ?? uri,
  };
}

/** `mode id stage TAB path`, each closed by NUL. */
function entriesIn(text: string): Map<string, Entry> {
  const entries = new Map<string, Entry>();
  for (const line of text.split('\0')) {
    // a path may hold tabs of its own
    const end = line.indexOf('\t');
    const path = end === -1 ? undefined : line.slice(end + 1);
    const [mode, id, stage] = line.slice(0, Math.max(0, end)).split(' ');
    // a module of another repository is a folder that is not ours
    if (path === undefined || mode === '160000') continue;
    entries.set(path, { id, isLink: mode === '120000', isInConflict: stage !== '0' });
  }
  return entries;
}

class Staged {
  constructor(
    private readonly root: string,
    private readonly entries: ReadonlyMap<string, Entry>,
  ) {}

  list(folderUri: string): string[] {
    const folder = this.nameOf(folderUri);
    if (folder === null) return [];
    return [...this.entries.keys()]
      .filter((name) => (folder === '' || name.startsWith(`${folder}/`)) && isOurs(name))
      .map((name) => this.uriOf(name))
      .sort();
  }

  async read(uri: string): Promise<ReadResult> {
    const name = await this.place(uri);
    const entry = name === null ? undefined : this.entries.get(name);
    if (name === null || entry === undefined) {
      const isFolder = name !== null && [...this.entries.keys()].some((each) => each.startsWith(`${name}/`));
      return isFolder || name === ''
        ? { kind: 'folder', message: 'it is a folder, not a file' }
        : { kind: 'missing', message: 'there is no such file among what is staged' };
    }
    if (entry.isInConflict)
      return { kind: 'unreadable', message: 'it is in conflict: settle that and stage it' };
    const text = await this.textOf(name, entry);
    return text === null
      ? { kind: 'unreadable', message: 'git cannot read what is staged' }
      : { kind: 'text', text };
  }

  /** The name of what a URI leads to when links are followed, in the repository; null where that is not in it. */
  async place(uri: string): Promise<string | null> {
    let name = this.nameOf(uri);
    for (let links = 0; name !== null && links < mostLinks; links++) {
      const link = this.linkIn(name);
      if (link === null) return name;
      const target = await this.textOf(link.name, link.entry);
      if (target === null || posix.isAbsolute(target)) return null;
      const to = posix.join(posix.dirname(link.name), target, name.slice(link.name.length));
      name = to === '..' || to.startsWith('../') ? null : to;
    }
    return null;
  }

  /** The first link on the way to a name. */
  private linkIn(name: string): { name: string; entry: Entry } | null {
    const parts = name.split('/');
    for (let count = 1; count <= parts.length; count++) {
      const at = parts.slice(0, count).join('/');
      const entry = this.entries.get(at);
      if (entry?.isLink) return { name: at, entry };
    }
    return null;
  }

  /** Of most files the work tree has the same text, and git need not be asked. */
  private async textOf(name: string, { id, isLink }: Entry): Promise<string | null> {
    return (isLink ? null : sameInWorkTree(`${this.root}/${name}`, id)) ?? blobAt(this.root, '', name);
  }

  private nameOf(uri: string): string | null {
    const path = pathOf(uri);
    if (path === null) return null;
    const name = relative(this.root, path).split(sep).join('/');
    return name === '..' || name.startsWith('../') || posix.isAbsolute(name) ? null : name;
  }

  private uriOf(name: string): string {
    return pathToFileURL(`${this.root}/${name}`).href;
  }
}

const isOurs = (name: string): boolean =>
  fileKind(`/${name}`) !== null && !name.split('/').some((each) => neverLookedInto.has(each));

const utf8 = new TextDecoder('utf-8', { ignoreBOM: true });

/** The text of a file if it is what git holds under an id, with the line ends of either kind of system; else null. */
function sameInWorkTree(path: string, id: string): string | null {
  try {
    const bytes = readFileSync(path);
    if (idOf(bytes, id.length) === id) return utf8.decode(bytes);
    if (!bytes.includes('\r\n')) return null;
    const text = utf8.decode(bytes).replaceAll('\r\n', '\n');
    return idOf(Buffer.from(text), id.length) === id ? text : null;
  } catch {
    return null;
  }
}

/** The name of a blob in git: of its length and bytes. */
const idOf = (bytes: Buffer, length: number): string =>
  createHash(length === 40 ? 'sha1' : 'sha256')
    .update(`blob ${bytes.length}\0`)
    .update(bytes)
    .digest('hex');
