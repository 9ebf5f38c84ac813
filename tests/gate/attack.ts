import { jobPath, type Shop } from './shop';

/** One thing that is changed in a repository. */
export type Change = (shop: Shop) => Shop;

/** A state of the car that must not be signed, written down honestly, and the rule that refuses it. */
export interface Truth {
  readonly what: string;
  readonly written: Change;
  readonly refusedBy: string;
}

/** What meets an attack: an error of this rule, and `check` fails; a warning that stands; a line in the record, or of `check`, that an honest file has not. */
export type Answer =
  | { readonly refused: string }
  | { readonly warned: string }
  | { readonly record: string; readonly tells: string }
  | { readonly printed: string };

export interface Attack {
  /** As it stands on the page. */
  readonly name: string;
  readonly truth: Truth;
  /** Done to the honest file. */
  readonly trick: Change;
  /** `anew`: the forger seals what then stands there; `kept`: the seals are those of the sound job. */
  readonly seals: 'anew' | 'kept';
  readonly answer: Answer;
}

/** Attacks of one kind, as a section of the page. */
export interface AttackGroup {
  readonly title: string;
  readonly attacks: readonly Attack[];
}

/** An attack that nothing meets, and why. */
export interface Gap extends Omit<Attack, 'answer'> {
  readonly why: string;
}

/** One piece of a file's text becomes another; it has to be there. */
export const inFile =
  (path: string, piece: string | RegExp, by: string): Change =>
  (shop) => {
    const text = shop[path].replace(piece, by);
    if (text === shop[path]) throw new Error(`${path} does not hold ${piece}`);
    return { ...shop, [path]: text };
  };

export const inJob = (piece: string | RegExp, by: string): Change => inFile(jobPath, piece, by);

/** In the last measure and below it. */
export const inFinished =
  (piece: string | RegExp, by: string): Change =>
  (shop) => {
    const text = shop[jobPath];
    const at = text.indexOf('- measure: finished');
    const finished = text.slice(at).replace(piece, by);
    if (at < 0 || finished === text.slice(at)) throw new Error(`the last measure does not hold ${piece}`);
    return { ...shop, [jobPath]: text.slice(0, at) + finished };
  };

export const added =
  (path: string, text: string): Change =>
  (shop) => ({ ...shop, [path]: text });

export const all =
  (...changes: readonly Change[]): Change =>
  (shop) =>
    changes.reduce((now, change) => change(now), shop);

/** Entries at the end of the timeline. */
export const atTheEnd = (entries: string): Change => inJob('\nsign-off:', `${entries}\nsign-off:`);

/** Entries ahead of the last measure. */
export const beforeFinished = (entries: string): Change =>
  inJob('  - measure: finished\n', `${entries}  - measure: finished\n`);

/** The row of a point, its line end too. */
export const row = (id: string): RegExp => new RegExp(`^ +${id.replace('.', '\\.')}:.*\n`, 'm');

/** A job of the shop that uses a sheet of its own in place of the estate's. */
export const withOwnSheet = (text: string): Change =>
  all(
    added('specs/own.chassis.yaml', text),
    inJob('chassis: ../specs/teal-estate.chassis.yaml', 'chassis: ../specs/own.chassis.yaml'),
  );

/** A sheet that extends the estate's. */
export const variant = (body: string): string =>
  `framewright: chassis/1\nextends: ./teal-estate.chassis.yaml\nvehicle: Teal estate, as this shop has it\n${body}`;

/** The last measure, which is from before the pull at the end, stands behind it too, below one that is dated later, as a merge leaves it. */
export const mergedBehind: Change = (shop) => {
  const text = shop[jobPath];
  const from = text.indexOf('  - measure: finished\n');
  const finished = text.slice(from, text.indexOf('  - pull: a touch more'));
  const later =
    '  - measure: after it\n    at: 2026-02-20T17:00\n    readings: { rear-rail-tip-lower.L: [ 1005.4, -391.6,  874.5] }\n';
  return atTheEnd(later + finished.replace('finished', 'finished, as merged'))(shop);
};
