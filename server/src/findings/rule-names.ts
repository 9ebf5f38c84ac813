import { nearest } from '../model/names';
import type { Problem } from '../model/problem';
import { entryOf, type TextTree, textOf } from '../text/tree';
import { ruleNamed, rules } from './rule-list';

/** Rules that a settings file names and that are not there, or that no setting changes. */
export function ruleNameProblems(tree: TextTree): Problem[] {
  const list = entryOf(tree.root, 'rules')?.value;
  if (list?.kind !== 'map') return [];
  return list.entries.flatMap(({ key }): Problem[] => {
    const name = textOf(key);
    const { place } = key;
    const rule = ruleNamed(name);
    if (rule?.unchangeable)
      return [
        {
          rule: 'text/unknown-key',
          place,
          message: `${name} guards the work or the sign-off: its severity cannot be changed`,
        },
      ];
    // a name that is not even written like a rule's is reported as such
    if (rule !== undefined || !/^[a-z-]+\/[a-z-]+$/.test(name)) return [];
    const meant = nearest(
      name,
      rules.filter((each) => !each.unchangeable).map((each) => each.name),
    );
    return [
      {
        rule: 'text/unknown-key',
        place,
        message: `there is no rule ${name}${meant ? `; did you mean ${meant}?` : ''}`,
        replacements: meant ? [{ title: `Change to ${meant}`, place, text: meant }] : undefined,
      },
    ];
  });
}
