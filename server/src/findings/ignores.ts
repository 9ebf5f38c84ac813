import { isEmptyReason } from '../model/read/empty-reasons';
import { type Ignore, ignoresIn, isReason, mayHoldIgnores } from '../model/read/ignore-comments';
import { linesOf } from '../text/lines';
import type { Finding } from './rule/finding';
import type { Rule } from './rule/rule';
import { emptyReason } from './settings/empty-reason';
import { unusedIgnore } from './settings/unused-ignore';

/** What an ignore comment is held against. */
interface Silencing {
  readonly isKnown: (rule: string) => boolean;
  /** No comment silences it. */
  readonly isUnchangeable: (rule: string) => boolean;
  /** It could not be asked about this line: that it says nothing there proves nothing. */
  readonly isUnheard: (rule: string, line: number) => boolean;
  /** Of rules that are switched off: told to nobody, but a comment about one has its purpose. */
  readonly switchedOff: readonly Finding[];
  /** A reason that says nothing counts as not given: the job is closed, under a version that asks for one. */
  readonly needsWords: boolean;
}

/** Marks what is silenced by its line, and adds what silences nothing. */
export function withIgnores(findings: readonly Finding[], text: string, silencing: Silencing): Finding[] {
  if (!mayHoldIgnores(text)) return [...findings];
  const { isUnchangeable, switchedOff, needsWords } = silencing;
  const lines = linesOf(text);
  const ignores = ignoresIn(text, lines);
  const byRuleAndLine = new Map<string, Ignore>();
  for (const ignore of ignores) {
    const key = `${ignore.line} ${ignore.rule}`;
    if (isReason(ignore.reason) && !isUnchangeable(ignore.rule) && !byRuleAndLine.has(key))
      byRuleAndLine.set(key, ignore);
  }
  const used = new Set<Ignore>();
  const silencedBy = ({ rule, range }: Finding): Ignore | undefined => {
    const ignore = byRuleAndLine.get(`${lines.positionAt(range.start).line} ${rule}`);
    if (ignore) used.add(ignore);
    return ignore;
  };
  for (const finding of switchedOff) silencedBy(finding);
  const marked = findings.map((finding) => {
    const ignore = silencedBy(finding);
    return ignore === undefined || (needsWords && isEmptyReason(ignore.reason))
      ? finding
      : { ...finding, ignored: ignore.reason };
  });
  const unused = ignores.flatMap((ignore): Finding[] => {
    if (used.has(ignore))
      return isEmptyReason(ignore.reason)
        ? [findingAt(ignore, emptyReason, emptyText(ignore, needsWords))]
        : [];
    const message = complaint(ignore, silencing);
    return message === null ? [] : [findingAt(ignore, unusedIgnore, message)];
  });
  return [...marked, ...unused];
}

const emptyText = ({ rule, reason }: Ignore, needsWords: boolean): string =>
  `“${reason}” is no reason that anybody could follow: ${needsWords ? `in a closed job it counts as not given, and ${rule} stands` : 'once the job is signed it counts as not given'}. Write why.`;

const findingAt = ({ start, end }: Ignore, { name, severity }: Rule, message: string): Finding => ({
  rule: name,
  severity,
  message,
  range: { start, end },
  related: [],
  ignored: null,
  replacements: [],
});

function complaint({ rule, reason, line }: Ignore, silencing: Silencing): string | null {
  const { isKnown, isUnchangeable, isUnheard } = silencing;
  if (rule === '') return 'name the rule to be silenced, and why: `# framewright-ignore RULE: reason`';
  if (!isKnown(rule)) return `there is no rule ${rule}`;
  if (isUnchangeable(rule)) return `${rule} guards the work or the sign-off and cannot be silenced`;
  const wanted = `\`# framewright-ignore ${rule}: reason\``;
  if (reason === '') return `a reason is required: ${wanted}`;
  if (!isReason(reason))
    return `this comment silences nothing: there is no word after the colon; write why, ${wanted}`;
  return isUnheard(rule, line) ? null : `${rule} is not raised here: this comment silences nothing`;
}
