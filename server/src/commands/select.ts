import { dependentsOf, type WayOf } from '../editor/dependents';
import { type Files, fileKind } from '../workspace/files';
import { LeavingOut } from '../workspace/ignored';
import { canonicalUri, folderOf, isInside } from '../workspace/uris';
import { collected, type LeftOutTarget, type Target } from './collect';

/** What a check looks at. */
export interface Selection {
  readonly targets: readonly Target[];
  /** What is to be said of paths that stand for no files: then the answer is not a whole one. */
  readonly complaints: readonly string[];
  readonly leftOut: readonly LeftOutTarget[];
}

/** The files that paths stand for, each once. */
export async function pathsSelected(files: Files, paths: readonly Target[]): Promise<Selection> {
  const targets = new Map<string, Target>();
  const leftOut = new Map<string, LeftOutTarget>();
  const complaints: string[] = [];
  for (const { uri, path } of paths) {
    const found = await collected(files, uri, path);
    complaints.push(...found.unread.map((line) => `framewright: ${line}`));
    for (const target of found.targets) if (!targets.has(target.uri)) targets.set(target.uri, target);
    for (const each of found.leftOut) leftOut.set(each.uri, each);
  }
  // a file that is named is looked at, whoever leaves it out
  for (const uri of targets.keys()) leftOut.delete(uri);
  return { targets: [...targets.values()], complaints, leftOut: [...leftOut.values()] };
}

/** How files are found that rest on others. */
export interface Surroundings {
  readonly files: Files;
  /** Folder in which they are looked for. */
  readonly folder: string;
  /** How a person is told of a file. */
  readonly pathOf: (uri: string) => string;
  readonly wayOf: WayOf;
}

/** The same, and what rests on the chassis and settings files that are named themselves. */
export async function withDependents(
  selection: Selection,
  named: readonly Target[],
  around: Surroundings,
): Promise<Selection> {
  const touched = named.map(({ uri }) => uri).filter((uri) => fileKind(uri) !== null);
  const resting = await dependentsOf(around.files, around.folder, touched, around.wayOf);
  const known = new Set(selection.targets.map(({ uri }) => uri));
  const more = await walked(
    around,
    resting.filter((uri) => !known.has(uri)),
  );
  return {
    ...selection,
    targets: [...selection.targets, ...more.targets],
    leftOut: [...selection.leftOut, ...more.leftOut.filter(({ uri }) => !known.has(uri))],
  };
}

/**
 * What changed and is still there, and what rests on it and on what is gone. Nobody named these files: what settings ignore is left out.
 * @param within only files there; none given: everywhere
 */
export async function changesSelected(
  changed: readonly string[],
  within: readonly Target[],
  around: Surroundings,
): Promise<Selection> {
  const ours = changed.filter((uri) => fileKind(uri) !== null);
  const resting = await dependentsOf(around.files, around.folder, changed, around.wayOf);
  const isWithin = (uri: string): boolean =>
    within.length === 0 ||
    within.some((each) => canonicalUri(each.uri) === canonicalUri(uri) || isInside(uri, each.uri));
  const uris: string[] = [];
  for (const uri of [...new Set([...ours, ...resting])].sort())
    if (isWithin(uri) && (await around.files.read(uri)).kind !== 'missing') uris.push(uri);
  return { complaints: [], ...(await walked(around, uris)) };
}

async function walked(
  { files, pathOf }: Surroundings,
  uris: readonly string[],
): Promise<Pick<Selection, 'targets' | 'leftOut'>> {
  const leaving = new LeavingOut(files, false);
  const targets: Target[] = [];
  const leftOut: LeftOutTarget[] = [];
  for (const uri of uris) {
    const left = await leaving.of(uri);
    if (left === null) targets.push({ uri, path: pathOf(uri) });
    else leftOut.push({ ...left, path: pathOf(uri) });
  }
  return { targets, leftOut };
}

/** Where what rests on a file is looked for: all that belongs together with it, else its own folder. */
export const folderAround = async (files: Pick<Files, 'root'>, uri: string): Promise<string> =>
  (await files.root(uri)) ?? folderOf(uri);
