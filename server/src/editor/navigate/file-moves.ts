import { applyEdits, plainOrQuoted, type TextEdit } from '../../text/edits';
import { offsetsOf, type TextTree } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import type { FileKind } from '../../workspace/files';
import { jobHead } from '../../workspace/job-head';
import { canonicalUri, encodedSegment, relativePath, resolvedUri, schemeOf } from '../../workspace/uris';
import type { WorkspaceQuery } from '../../workspace/workspace-query';
import { chassisLink } from '../chassis-link';
import { type FileEdits, placed } from './file-edits';
import { type SignedJob, signedJob, signOffEdits, withSignOffs } from './sign-off-follows';

/** A file or folder that is about to have another name or place. */
interface Move {
  readonly from: string;
  readonly to: string;
}

/**
 * What keeps the paths of chassis files right when files or folders move: in the files that move, and in those that name them.
 * Edits are of the files where they stand before the move. A path that leads where it led is not touched.
 */
export async function editsForMoves(query: WorkspaceQuery, moves: readonly Move[]): Promise<FileEdits[]> {
  const targets = targetsOf(moves);
  const uris = await query.uris(moves.map(({ from }) => from));
  const ofKind = (kind: FileKind) => uris.filter((uri) => query.workspace.kindOf(uri) === kind);
  const all: FileEdits[] = [];
  const changed = new Map<string, string>();
  for (const uri of ofKind('chassis')) {
    const file = await query.read(uri);
    const edit = file.kind === 'chassis' ? pathEdit('chassis', uri, file.tree, targets) : null;
    if (file.kind !== 'chassis' || edit === null) continue;
    all.push({ uri, edits: placed(file.text, [edit]) });
    changed.set(canonicalUri(uri), applyEdits(file.text, [edit]));
  }
  const signed: SignedJob[] = [];
  for (const uri of ofKind('readings')) {
    const text = await query.readText(uri);
    if (text === null) continue;
    const edit = pathEdit('readings', uri, jobHead(text) ?? parseText(text), targets);
    if (edit !== null) all.push({ uri, edits: placed(text, [edit]) });
    if (changed.size === 0 || !text.includes('sha256-')) continue;
    const file = await query.read(uri);
    const job = file.kind === 'readings' ? await signedJob(query, file) : null;
    if (job) signed.push(job);
  }
  return withSignOffs(all, await signOffEdits(query, signed, changed));
}

/** @param tree of the file, or of the head of a job */
function pathEdit(kind: FileKind, uri: string, tree: TextTree, targets: Targets): TextEdit | null {
  const link = chassisLink(kind, uri, tree);
  if (link === null) return null;
  const [from, to] = [movedUri(uri, targets), movedUri(link.uri, targets)];
  if (schemeOf(from) !== schemeOf(to)) return null;
  if (canonicalUri(resolvedUri(from, link.path)) === canonicalUri(to)) return null;
  const relative = relativePath(from, to);
  const dotted = /^\.[\\/]/.test(link.path) && !relative.startsWith('.') ? `./${relative}` : relative;
  const { start, end } = offsetsOf(link.place);
  return { start, end, text: quotedAs(tree.text.slice(start, end), dotted) };
}

/** Where files and folders go, by the canonical URI of where they are. */
type Targets = ReadonlyMap<string, string>;

const withoutSlash = (uri: string): string => uri.replace(/\/$/, '');

const targetsOf = (moves: readonly Move[]): Targets =>
  new Map(moves.map(({ from, to }) => [withoutSlash(canonicalUri(from)), withoutSlash(to)]));

/** Where a file is after the moves; of a folder in a moved folder the nearest counts. */
function movedUri(uri: string, targets: Targets): string {
  const canonical = canonicalUri(uri);
  for (let end = canonical.length; end > 0; end = canonical.lastIndexOf('/', end - 1)) {
    const to = targets.get(canonical.slice(0, end));
    if (to !== undefined) return to + canonical.slice(end).split('/').map(encodedSegment).join('/');
  }
  return uri;
}

/** In the quotes that stood there. */
function quotedAs(written: string, path: string): string {
  if (written.startsWith("'")) return `'${path.replaceAll("'", "''")}'`;
  return written.startsWith('"') ? JSON.stringify(path) : plainOrQuoted(path, 'flow');
}
