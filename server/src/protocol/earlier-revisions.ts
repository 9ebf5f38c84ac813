import type { TextDocuments } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { decoded } from '../model/file-name';
import type { Files, ReadResult } from '../workspace/files';
import type { Judges } from '../workspace/judges';
import { type Analysis, Workspace } from '../workspace/workspace';
import type { Shown } from './diagnostics';

/**
 * The sides of a comparison that are no files: documents `git:/shop/job.readings.yaml?{"path":"/shop/job.readings.yaml","ref":"HEAD"}`, as the
 * editor's own git names them. Each is judged by the files of its own revision, which the editor is asked for by the same kind of name.
 */
interface Revision {
  /** The file that it is a revision of. */
  readonly fileUri: string;
  readonly ref: string;
  /** Another file as it was then. */
  uriOf(fileUri: string): string;
}

export function revisionOf(uri: string): Revision | null {
  const found = /^git:(\/(?!\/)[^?#]*)\?([^#]*)$/.exec(uri);
  const query = found && queryOf(found[2]);
  if (!found || query === null) return null;
  // the editor may add an ending, so that other programs keep off
  const path = query.path.endsWith('.git') ? found[1] : found[1].replace(/\.git$/, '');
  return {
    fileUri: `file://${path}`,
    ref: query.ref,
    uriOf: (fileUri) => {
      const itsPath = fileUri.slice('file://'.length);
      const asked = { ...query, path: systemPath(itsPath, query.path) };
      return `git:${itsPath}?${encodeURIComponent(JSON.stringify(asked))}`;
    },
  };
}

function queryOf(text: string): { readonly path: string; readonly ref: string } | null {
  try {
    const query: unknown = JSON.parse(decoded(text));
    if (typeof query !== 'object' || query === null || !('path' in query) || !('ref' in query)) return null;
    const { path, ref } = query;
    return typeof path === 'string' && typeof ref === 'string' ? { ...query, path, ref } : null;
  } catch {
    return null;
  }
}

/** A path as the system writes it, which a like one shows: `/shop/a`, `c:\shop\a`. */
const systemPath = (path: string, like: string): string =>
  /^[A-Za-z]:\\/.test(like) ? decoded(path).slice(1).replaceAll('/', '\\') : decoded(path);

interface Parts {
  readonly documents: Pick<TextDocuments<TextDocument>, 'get'>;
  /** Of today: what belongs together is told by them. */
  readonly files: Files;
  readonly judges: Judges;
  /** Asks the editor for a file. */
  read(uri: string): Promise<ReadResult>;
}

/** An editor asks for several things of a document at once: so long one answer is good for all, ms. */
const goodForMs = 2000;

/** Judges what the editor shows of earlier revisions. Nothing of it is told as a finding. */
export class EarlierRevisions {
  private last: {
    readonly key: string;
    readonly until: number;
    readonly analysis: Promise<Analysis | null>;
  } | null = null;

  constructor(private readonly parts: Parts) {}

  /** Null where the document is no revision of a file, or cannot be judged at all. Nobody types into it. */
  async shown(uri: string): Promise<Shown | null> {
    const analysis = await this.analysis(uri);
    return analysis && { analysis, row: null };
  }

  private async analysis(uri: string): Promise<Analysis | null> {
    const document = this.parts.documents.get(uri);
    const revision = revisionOf(uri);
    if (document === undefined || revision === null) return null;
    const key = `${document.version} ${uri}`;
    if (this.last?.key !== key || this.last.until < Date.now())
      this.last = { key, until: Date.now() + goodForMs, analysis: this.judged(revision, document.getText()) };
    return this.last.analysis;
  }

  private async judged(revision: Revision, text: string): Promise<Analysis | null> {
    const { files, judges } = this.parts;
    const workspace = new Workspace(
      {
        read: (uri) => this.readAt(revision, uri),
        // names that were meant are not looked for: nobody mends an earlier revision
        list: async () => ({ uris: [], unread: [] }),
        root: (uri) => files.root(uri),
        leadsOut: async () => false,
      },
      judges,
    );
    workspace.setOpen(revision.fileUri, text);
    const found = await workspace.analysis(revision.fileUri);
    return 'findings' in found ? found : null;
  }

  /** Of a file that a revision does not have some editors answer that it is empty. */
  private async readAt(revision: Revision, uri: string): Promise<ReadResult> {
    const missing: ReadResult = { kind: 'missing', message: 'there is no such file in this revision' };
    if (!uri.startsWith('file://')) return missing;
    const read = await this.parts.read(revision.uriOf(uri));
    return read.kind === 'text' && read.text === '' ? missing : read;
  }
}
