import { longestName, namePattern } from '@framewright/schemas';
import { type MapEntry, textOf } from '../../text/tree';
import { nameOf, sideOf } from '../names';
import type { Problem } from '../problem';

/** Whether an entry's key is written as a name is. */
export const isName = (entry: MapEntry): boolean => namePattern.test(textOf(entry.key));

/** The name that was likely meant, for one that is not written as a name is. */
export const mendedName = (entry: MapEntry): string =>
  nameOf(textOf(entry.key))
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');

/** The name that an entry begins with; null, with a problem, where it is not written as a name is. */
export function nameIn(entry: MapEntry, report: (problem: Problem) => void): string | null {
  if (isName(entry)) return textOf(entry.key);
  const { place } = entry.key;
  const mended = mendedName(entry);
  if (mended.length > longestName) {
    const { length } = mended;
    report({
      rule: 'text/wrong-type',
      place,
      message: `a name has at most ${longestName} characters, and this one has ${length}`,
    });
    return null;
  }
  report({
    rule: 'text/wrong-type',
    place,
    message:
      mended && sideOf(textOf(entry.key)) !== null
        ? `a name is written here without its side: write ${mended} (a point with \`both\`, or \`left\` and \`right\`; a part with \`sided: true\`)`
        : `a name is lower-case words joined by hyphens${mended ? `: ${mended}` : ''}`,
    replacements: mended ? [{ title: `Change to ${mended}`, place, text: mended }] : undefined,
  });
  return null;
}
