import { namePattern } from '@framewright/schemas';
import type { TextRange } from '../../findings/rule/finding';
import { fileName } from '../../model/file-name';
import { idsNamed, nameOf, sideOf } from '../../model/names';
import type { NamedPlace } from '../../model/resolve/job-mentions';
import { coreValueOf } from '../../text/core-schema';
import { applyEdits, type TextEdit } from '../../text/edits';
import { linesOf } from '../../text/lines';
import { offsetsOf } from '../../text/tree';
import { canonicalUri, schemeOf } from '../../workspace/uris';
import type { Analysis, Unjudged } from '../../workspace/workspace';
import type { WorkspaceQuery } from '../../workspace/workspace-query';
import { bareRange, isEntry, namedAt, originOf, sameName } from '../mention-matching';
import { mentionsOf } from '../mentions';
import { filesOfBody } from './body-files';
import { type FileEdits, placed } from './file-edits';
import { type SealedJob, withSeals } from './seals-follow';
import { type SignedJob, signedJob, signOffEdits, withSignOffs } from './sign-off-follows';
import { strayName } from './stray-name';

/** Why a name is not changed, in words for the person who asked. */
interface Refusal {
  readonly refused: string;
}

/** What would be renamed: the name without its side, as both sides are renamed together. */
interface Renamable {
  readonly range: TextRange;
  readonly name: string;
}

/** Null where no name stands. */
export function renamableAt(analysis: Analysis, offset: number): Renamable | Refusal | null {
  const named = namedAt(analysis, offset);
  if (named === null || analysis.kind === 'settings') return null;
  const refusal = unknown(analysis, named);
  if (refusal !== null) return refusal;
  const range = bareRange(analysis.text, named.place, named.id);
  return range && { range, name: nameOf(named.id) };
}

/**
 * A point or part under another name, with both sides, in the chassis files that share it and the jobs on those bodies; sides stay as
 * they are. Comments and free words are left alone. Nothing is changed unless all can be: where the new name is taken, where it is
 * no name, or where a file that may use it cannot be read or be looked for, it is refused.
 * @param newName without a side, or with the side of the name that was asked about
 */
export async function renameAt(
  query: WorkspaceQuery,
  analysis: Analysis,
  offset: number,
  newName: string,
): Promise<FileEdits[] | Refusal> {
  const named = namedAt(analysis, offset);
  if (named === null || analysis.kind === 'settings') return { refused: 'no point or part is named here' };
  const refusal = unknown(analysis, named);
  if (refusal !== null) return refusal;
  const old = nameOf(named.id);
  const bare = bareName(newName.trim(), named);
  if (typeof bare !== 'string') return bare;
  if (bare === old) return [];
  const chassisUri = await query.chassisOf(analysis);
  const origin = chassisUri && (await originOf(query, chassisUri, named));
  if (!origin) return { refused: `no chassis file that can be read gives ${old}` };
  if (schemeOf(origin) !== 'untitled' && (await query.workspace.rootOf(origin)) === null)
    return {
      refused: `${fileName(origin)} is in no open folder: open the folder with all its jobs, so that none keeps the old name`,
    };
  return (
    (await takenAbove(query, chassisUri, { ...named, id: bare })) ??
    (await everywhere(query, origin, named, bare))
  );
}

function unknown(analysis: Exclude<Analysis, { kind: 'settings' }>, named: NamedPlace): Refusal | null {
  const { chassis } = analysis;
  if (chassis === null) return { refused: 'the chassis file cannot be read: see its findings' };
  const isPoint = named.kind === 'point';
  const isThere =
    idsNamed(named.id, isPoint ? chassis.points : chassis.parts).length > 0 ||
    chassis.unread[isPoint ? 'points' : 'parts'].has(nameOf(named.id)) ||
    // also one that takes a parent's away
    (analysis.kind === 'chassis' &&
      mentionsOf(analysis).some((each) => sameName(each, named) && isEntry(each, analysis.tree)));
  return isThere ? null : { refused: `the chassis file has no ${named.kind} ${named.id}` };
}

function bareName(written: string, named: NamedPlace): string | Refusal {
  const side = sideOf(written);
  if (side !== null && side !== sideOf(named.id))
    return { refused: `a name is changed on both sides at once: write it without .${side}` };
  const bare = nameOf(written);
  if (!namePattern.test(bare))
    return { refused: `“${written}” is no name: lower-case words joined by hyphens, such as rail-tip-lower` };
  if (typeof coreValueOf(bare) !== 'string')
    return { refused: `“${bare}” would be read as a number or a word of YAML, not as a name` };
  if (named.kind === 'part' && bare === 'all')
    return { refused: '“all” stands for every part in `relieve` and `release`' };
  return bare;
}

/** In the file that was asked about, or one that it stands on: there whoever asks will look first, and no variant could tell the two apart. */
async function takenAbove(
  query: WorkspaceQuery,
  chassisUri: string,
  taken: NamedPlace,
): Promise<Refusal | null> {
  for (const uri of await query.chainOf(chassisUri)) {
    const file = await query.read(uri, 'chassis');
    const collision = file.kind === 'chassis' ? collisionIn(file, taken) : null;
    if (collision) return collision;
  }
  return null;
}

async function everywhere(
  query: WorkspaceQuery,
  origin: string,
  named: NamedPlace,
  bare: string,
): Promise<FileEdits[] | Refusal> {
  const old = nameOf(named.id);
  const taken: NamedPlace = { ...named, id: bare };
  const all: FileEdits[] = [];
  const signed: SignedJob[] = [];
  const sealed: SealedJob[] = [];
  const changed = new Map<string, string>();
  for await (const file of filesOfBody(query, origin, old, bare, 'sha256-', 'seal1-')) {
    if (!('kind' in file))
      return { refused: `${fileName(file.uri)} cannot be read, and may use the name: ${file.message}` };
    const refusal = collisionIn(file, taken) ?? strayName(file, named);
    if (refusal !== null) return refusal;
    const edits = placed(file.text, renamingEdits(file, named, bare));
    if (edits.length > 0) all.push({ uri: file.uri, edits });
    if (file.kind === 'chassis') changed.set(canonicalUri(file.uri), applyEdits(file.text, edits));
    else {
      const job = file.job.signOff?.readings == null ? await signedJob(query, file) : null;
      if (job) signed.push(job);
      if (file.job.signOff?.readings != null) sealed.push(file);
    }
  }
  const withHashes = withSignOffs(all, await signOffEdits(query, signed, changed));
  return withSeals(query, withHashes, sealed);
}

function renamingEdits(file: Unjudged, named: NamedPlace, bare: string): TextEdit[] {
  return mentionsOf(file).flatMap((mention): TextEdit[] => {
    const { start, end } = offsetsOf(mention.place);
    const isAlias = file.text[start] === '*';
    if (!sameName(mention, named)) {
      // it repeats a name that is about to change where it was anchored
      return isAlias && nameOf(mention.id) === nameOf(named.id) ? [{ start, end, text: mention.id }] : [];
    }
    const range = bareRange(file.text, mention.place, mention.id);
    const side = sideOf(mention.id);
    return [
      range ? { ...range, text: bare } : { start, end, text: side === null ? bare : `${bare}.${side}` },
    ];
  });
}

function collisionIn(file: Unjudged, taken: NamedPlace): Refusal | null {
  const found = mentionsOf(file).find((each) => sameName(each, taken));
  if (!found) return null;
  const { line } = linesOf(file.text).positionAt(offsetsOf(found.place).start);
  return {
    refused: `there is a ${taken.kind} ${nameOf(taken.id)} already: ${fileName(file.uri)}, line ${line + 1}`,
  };
}
