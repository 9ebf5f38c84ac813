import { type Comparing, compared, type Differing } from '../commands/diff';
import { diffText } from '../commands/formats/diff-text';
import { sealed, sealsToBe } from '../findings/testing/sign-off';
import { type Damage, job, measure, sound } from '../testing/body';
import { memoryFiles } from '../workspace/testing/memory-files';

/** Prepared histories: two states of a small repository in memory. Names without a folder. */

type Texts = Readonly<Record<string, string>>;

const folder = 'file:///shop/';

const uriOf = (name: string): string => folder + name;

const filesOf = (texts: Texts) =>
  memoryFiles(Object.fromEntries(Object.entries(texts).map(([name, text]) => [uriOf(name), text])), folder);

/** What differs between two states, as git would say it. */
function comparing(before: Texts, after: Texts, renamed: Texts): Comparing {
  const gone = new Set(Object.values(renamed));
  const names = [...new Set([...Object.keys(before), ...Object.keys(after)])]
    .filter((name) => !gone.has(name))
    .sort();
  const files = names
    .filter((name) => before[name] !== after[name])
    .map((name): Differing => {
      const was = renamed[name] ?? null;
      const [had, has] = [was !== null || name in before, name in after];
      return {
        path: name,
        was,
        status: was !== null ? 'renamed' : !had ? 'added' : !has ? 'deleted' : 'modified',
        before: had ? uriOf(was ?? name) : null,
        after: has ? uriOf(name) : null,
        notes: [],
        passage: null,
      };
    });
  return {
    before: { name: 'main', files: filesOf(before) },
    after: { name: 'branch', files: filesOf(after) },
    files,
    root: folder,
  };
}

/**
 * The lines of the diff, as a terminal shows them.
 * @param renamed by a file's name now, how it was called
 */
export async function linesOf(before: Texts, after: Texts, renamed: Texts = {}): Promise<string[]> {
  const { diff, told } = await compared(comparing(before, after, renamed));
  return diffText(diff.verdict, told);
}

const scope = 'scope: [front-rail.L, centre-pillar]\n';

export const openJob = (timeline: string): string => job(timeline, scope);

/** Signed against the small body, seals and all. */
export const signedJob = (damage: Damage = sound, accepted = ''): string =>
  sealed(job(measure('finished', damage), scope, sealsToBe(accepted)));
