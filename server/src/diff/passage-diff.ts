import { chassisLines, noBody } from './chassis-lines';
import { counted, line } from './line';
import type { Resting, Told } from './told';
import { verdictFirst } from './verdict-words';

/** What is no file of ours itself and leads to some. */
export interface Passage {
  readonly kind: 'link' | 'module';
  /** What became of it, in words. */
  readonly change: string;
}

/**
 * A link to other files, or a submodule at another commit: told by what it does to the jobs that rest on what is reached through it.
 * @param resting `unjudged`: jobs that a side cannot judge
 */
export function passageDiff(
  path: string,
  { kind, change }: Passage,
  resting: Resting & { readonly unjudged: number },
): Told {
  const { touches, untouched, variants, unjudged } = resting;
  const cannot = unjudged === 0 ? [] : [`${counted(unjudged, 'job')} on it cannot be judged`];
  const what = kind === 'module' ? `git submodule ${change}` : `link to other files ${change}`;
  return {
    file: {
      path,
      was: null,
      status: 'modified',
      // its files are not compared: that they mean the same nobody knows
      meaning: unjudged > 0 ? 'unknown' : 'different',
      verdict: verdictFirst([what, ...cannot], resting),
      notes: [],
      job: null,
      chassis: null,
      settings: null,
      variants,
      touches,
      untouched,
    },
    lines: [...cannot.map((each) => line(each, true)), ...chassisLines(noBody, { touches, variants }, 'mm')],
  };
}
