import type { TextRange } from '../../findings/rule/finding';
import { ruleNamed } from '../../findings/rule-list';
import { ignoresIn } from '../../model/read/ignore-comments';
import { linesOf } from '../../text/lines';
import { entryOf, offsetsOf, textOf } from '../../text/tree';
import type { Analysis } from '../../workspace/workspace';
import { chassisLink } from '../chassis-link';

/** A piece of text that leads to a file of the workspace, or to the page of a rule. */
export type Link = { readonly range: TextRange } & (
  | { readonly kind: 'file'; readonly uri: string }
  | { readonly kind: 'rule'; readonly rule: string }
);

export function linksIn(analysis: Analysis): Link[] {
  const file = chassisLink(analysis.kind, analysis.uri, analysis.tree);
  const rules = [...ignoredRules(analysis), ...settingsRules(analysis)];
  return [
    ...(file ? [{ kind: 'file' as const, uri: file.uri, range: offsetsOf(file.place) }] : []),
    ...rules
      .filter(({ rule }) => ruleNamed(rule) !== undefined)
      .map((each) => ({ kind: 'rule' as const, ...each })),
  ];
}

interface RulePlace {
  readonly rule: string;
  readonly range: TextRange;
}

function ignoredRules({ text }: Analysis): RulePlace[] {
  if (!text.includes('framewright-ignore')) return [];
  return ignoresIn(text, linesOf(text)).map(({ rule, ruleStart }) => ({
    rule,
    range: { start: ruleStart, end: ruleStart + rule.length },
  }));
}

function settingsRules({ kind, tree }: Analysis): RulePlace[] {
  const list = kind === 'settings' ? entryOf(tree.root, 'rules')?.value : null;
  if (list?.kind !== 'map') return [];
  return list.entries.map(({ key }) => ({ rule: textOf(key), range: offsetsOf(key.place) }));
}
