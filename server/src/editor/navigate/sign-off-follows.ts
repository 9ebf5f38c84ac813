import { chassisHash, matchesHash } from '../../inspection/gate/chassis-hash';
import { offsetsOf } from '../../text/tree';
import { canonicalUri } from '../../workspace/uris';
import type { Unjudged } from '../../workspace/workspace';
import type { WorkspaceQuery } from '../../workspace/workspace-query';
import { type FileEdits, type PlacedEdit, placed } from './file-edits';

/** A signed job whose chassis file an edit of names or paths would change. */
export interface SignedJob {
  readonly uri: string;
  readonly chain: readonly string[];
  readonly written: string;
  /** The edit of the hash, its new text not known yet. */
  readonly edit: PlacedEdit;
}

/** The signature of a job over its chassis file; null where it carries none. */
export async function signedJob(query: WorkspaceQuery, file: JobText): Promise<SignedJob | null> {
  const { uri, text } = file;
  const { signOff } = file.job;
  if (signOff?.chassis == null || signOff.chassisPlace === null) return null;
  const { start, end } = offsetsOf(signOff.chassisPlace);
  const at = text.indexOf(signOff.chassis, start);
  if (at < start || at + signOff.chassis.length > end) return null;
  const chassisUri = await query.chassisOf(file);
  if (chassisUri === null) return null;
  const whole = { start: at, end: at + signOff.chassis.length, text: signOff.chassis };
  const [edit] = placed(text, [whole], true);
  return { uri, chain: await query.chainOf(chassisUri), written: signOff.chassis, edit };
}

type JobText = Extract<Unjudged, { kind: 'readings' }>;

/**
 * Names and paths change the content of a chassis file, not the body it tells of: where a job was signed against it as it stands, its
 * hash follows, to as many digits. Where it was not, the job keeps saying so.
 * @param changed the texts to be, by canonical URI
 */
export async function signOffEdits(
  query: WorkspaceQuery,
  jobs: readonly SignedJob[],
  changed: ReadonlyMap<string, string>,
): Promise<Map<string, PlacedEdit>> {
  const edits = new Map<string, PlacedEdit>();
  for (const { uri, chain, written, edit } of jobs) {
    if (!chain.some((each) => changed.has(canonicalUri(each)))) continue;
    const now = await textsOf(query, chain, new Map());
    const then = await textsOf(query, chain, changed);
    if (!matchesHash({ chain: now }, written)) continue;
    edits.set(uri, { ...edit, text: chassisHash({ chain: then }).slice(0, written.length) });
  }
  return edits;
}

async function textsOf(
  query: WorkspaceQuery,
  chain: readonly string[],
  changed: ReadonlyMap<string, string>,
): Promise<{ uri: string; text: string }[]> {
  const texts: { uri: string; text: string }[] = [];
  for (const uri of chain) {
    const known = changed.get(canonicalUri(uri));
    const read = known === undefined ? await query.workspace.read(uri) : null;
    texts.push({ uri, text: known ?? (read?.kind === 'text' ? read.text : '') });
  }
  return texts;
}

/** Edits of signatures among the others of their file. */
export function withSignOffs(
  all: readonly FileEdits[],
  signatures: ReadonlyMap<string, PlacedEdit>,
): FileEdits[] {
  const others = [...signatures].filter(([uri]) => !all.some((each) => each.uri === uri));
  return [
    ...all.map(({ uri, edits }) => {
      const signature = signatures.get(uri);
      return { uri, edits: signature ? [...edits, signature].sort((a, b) => a.start - b.start) : edits };
    }),
    ...others.map(([uri, edit]) => ({ uri, edits: [edit] })),
  ];
}
