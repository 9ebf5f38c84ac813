import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { posix, relative, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { fileKind, largestFile, neverLookedInto, type ReadResult } from '../workspace/files';
import { canonicalUri } from '../workspace/uris';
import { pathOf } from './files';
import { blobsWith, blobWith, runGit } from './git';

/**
 * Files that git holds, of a revision or of what is staged, under the URIs that they have in the work tree. Links are followed as the work tree
 * would; in a submodule stands what its commit has.
 */

interface Entry {
  /** Of a blob; of a submodule its commit. */
  readonly id: string;
  readonly kind: 'file' | 'link' | 'module';
  readonly isInConflict: boolean;
}

const mostLinks = 20;

/** `mode id stage TAB path` or `mode type id TAB path`, each closed by NUL. */
export function entriesIn(text: string): Map<string, Entry> {
  const entries = new Map<string, Entry>();
  for (const line of text.split('\0')) {
    // a path may hold tabs of its own
    const end = line.indexOf('\t');
    if (end === -1) continue;
    const second = line.indexOf(' ') + 1;
    const third = line.indexOf(' ', second) + 1;
    const isStaged = end - third === 1;
    entries.set(line.slice(end + 1), {
      id: isStaged ? line.slice(second, third - 1) : line.slice(third, end),
      kind: line.startsWith('120000') ? 'link' : line.startsWith('160000') ? 'module' : 'file',
      isInConflict: isStaged && line[third] !== '0',
    });
  }
  return entries;
}

/**
 * The files of a commit; none where git cannot tell.
 * @param revision empty: what is staged
 */
export async function entriesOf(
  root: string,
  revision: string,
  repository: 'given' | 'own' = 'given',
): Promise<Map<string, Entry>> {
  const args = revision === '' ? ['ls-files', '-s', '-z'] : ['ls-tree', '-r', '-z', '--full-tree', revision];
  const { code, stdout } = await runGit(root, args, repository);
  return entriesIn(code === 0 ? stdout.toString() : '');
}

export class TreeFiles {
  private readonly modules = new Map<string, Promise<TreeFiles | null>>();
  private texts: ReadonlyMap<string, string> = new Map();

  /**
   * @param root the top of the work tree
   * @param side what a person calls the files
   * @param repository how git is to find it
   */
  constructor(
    private readonly root: string,
    private readonly entries: ReadonlyMap<string, Entry>,
    private readonly side: string,
    private readonly repository: 'given' | 'own' = 'given',
  ) {}

  /** Our files below a folder, those of submodules not among them. */
  list(folderUri: string): string[] {
    const folder = this.nameOf(folderUri);
    if (folder === null) return [];
    return [...this.entries]
      .filter(([name, { kind }]) => kind !== 'module' && isOurs(name))
      .map(([name]) => name)
      .filter((name) => folder === '' || name.startsWith(`${folder}/`))
      .map((name) => this.uriOf(name))
      .sort();
  }

  /** Links that have a name of ours. */
  links(): string[] {
    return [...this.entries]
      .filter(([name, { kind }]) => kind === 'link' && isOurs(name))
      .map(([name]) => this.uriOf(name));
  }

  /** Reads all our files at once: asking git for each by itself takes a process each. */
  readAll(): void {
    const ids = [...this.entries].flatMap(([name, { id, kind }]) =>
      kind === 'file' && isOurs(name) ? [id] : [],
    );
    this.texts = blobsWith(this.root, [...new Set(ids)]);
  }

  async read(uri: string): Promise<ReadResult> {
    const name = this.nameOf(uri);
    const place = name === null ? null : (await this.way(name)).place;
    return place === null ? this.missing() : this.readAt(place);
  }

  private missing(): ReadResult {
    return { kind: 'missing', message: `there is no such file ${this.side}` };
  }

  private async readAt(name: string): Promise<ReadResult> {
    const module = this.moduleAbove(name);
    if (module !== null && module.name !== name) {
      const files = await this.module(module);
      const message = `it lies in the git submodule ${module.name}, whose commit ${module.entry.id.slice(0, 10)} is not here`;
      return files === null
        ? { kind: 'unreadable', message }
        : files.readAt(name.slice(module.name.length + 1));
    }
    const entry = this.entries.get(name);
    if (entry === undefined || entry.kind === 'module') {
      const isFolder =
        entry !== undefined ||
        name === '' ||
        [...this.entries.keys()].some((each) => each.startsWith(`${name}/`));
      return isFolder ? { kind: 'folder', message: 'it is a folder, not a file' } : this.missing();
    }
    if (entry.isInConflict)
      return { kind: 'unreadable', message: 'it is in conflict: settle that and stage it' };
    const text = await this.textOf(name, entry);
    if (text === null) return { kind: 'unreadable', message: `git cannot read what is ${this.side}` };
    return text.length > largestFile
      ? { kind: 'too-large', message: 'the file is larger than 8 MB' }
      : { kind: 'text', text };
  }

  /** The links on the way to a file and where it leads in the end, by canonical URI; a way out of the repository ends at the link. */
  async wayOf(uri: string): Promise<string[]> {
    const name = this.nameOf(uri);
    if (name === null) return [canonicalUri(uri)];
    const { links, place } = await this.way(name);
    return [...links, ...(place === null ? [] : [place])].map((each) => canonicalUri(this.uriOf(each)));
  }

  async leadsOut(uri: string): Promise<boolean> {
    const name = this.nameOf(uri);
    return name === null || (await this.way(name)).place === null;
  }

  /** @returns `place` null where it is not in the repository */
  private async way(from: string): Promise<{ links: string[]; place: string | null }> {
    const links: string[] = [];
    for (let name = from; links.length < mostLinks; ) {
      const link = this.linkIn(name);
      if (link === null) return { links, place: await this.placeInModule(name, links) };
      links.push(link.name);
      const target = await this.textOf(link.name, link.entry);
      if (target === null || posix.isAbsolute(target)) break;
      name = posix.join(posix.dirname(link.name), target, name.slice(link.name.length));
      if (name === '..' || name.startsWith('../')) break;
    }
    return { links, place: null };
  }

  /** Links in a submodule are followed in it. */
  private async placeInModule(name: string, links: string[]): Promise<string | null> {
    const module = this.moduleAbove(name);
    const files = module === null ? null : await this.module(module);
    if (module === null || files === null) return name;
    const { links: inner, place } = await files.way(name.slice(module.name.length + 1));
    links.push(...inner.map((each) => `${module.name}/${each}`));
    return place === null ? null : `${module.name}/${place}`;
  }

  private module({ name, entry }: Found): Promise<TreeFiles | null> {
    let files = this.modules.get(name);
    if (files === undefined) {
      const top = `${this.root}/${name}`;
      files = runGit(top, ['cat-file', '-e', `${entry.id}^{commit}`], 'own').then(async ({ code }) =>
        code === 0 ? new TreeFiles(top, await entriesOf(top, entry.id, 'own'), this.side, 'own') : null,
      );
      this.modules.set(name, files);
    }
    return files;
  }

  private readonly linkIn = (name: string): Found | null => this.firstOn(name, 'link');
  private readonly moduleAbove = (name: string): Found | null => this.firstOn(name, 'module');

  /** The first of a kind on the way to a name. */
  private firstOn(name: string, kind: Entry['kind']): Found | null {
    for (let end = name.indexOf('/'); ; end = name.indexOf('/', end + 1)) {
      const at = end === -1 ? name : name.slice(0, end);
      const entry = this.entries.get(at);
      if (entry?.kind === kind) return { name: at, entry };
      if (end === -1) return null;
    }
  }

  /** Of most files the work tree has the same text, and git need not be asked. */
  private async textOf(name: string, { id, kind }: Entry): Promise<string | null> {
    const known = this.texts.get(id);
    if (known !== undefined) return known;
    return (
      (kind === 'link' ? null : sameInWorkTree(`${this.root}/${name}`, id)) ??
      blobWith(this.root, id, this.repository)
    );
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

interface Found {
  readonly name: string;
  readonly entry: Entry;
}

const isOurs = (name: string): boolean =>
  fileKind(`/${name}`) !== null && !name.split('/').some((each) => neverLookedInto.has(each));

/** The byte-order mark stays: it counts as a character of the first line. */
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
