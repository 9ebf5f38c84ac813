import { type LineTable, linesOf } from '../text/lines';
import type { Finding } from './rule/finding';
import { unusedIgnore } from './settings/unused-ignore';

/** `# framewright-ignore RULE: reason`, on the line that it is about or alone on the line above. */
export interface Ignore {
  readonly rule: string;
  /** Where the rule's name begins. */
  readonly ruleStart: number;
  readonly reason: string;
  readonly start: number;
  readonly end: number;
  /** The line that it is about. */
  readonly line: number;
}

const pattern = /(^|\s)(#\s*framewright-ignore\b[ \t]*([^\s:]*)[ \t]*:?[ \t]*([^\r\n]*?))[ \t]*$/gm;

export function ignoresIn(text: string, lines: LineTable): Ignore[] {
  return [...text.matchAll(pattern)].map((match) => {
    const start = match.index + match[1].length;
    const { line } = lines.positionAt(start);
    const alone = lines.lineText(line).trimStart().startsWith('#');
    const ruleStart = start + match[2].indexOf(match[3], match[2].indexOf('ignore') + 'ignore'.length);
    return {
      rule: match[3],
      ruleStart,
      reason: match[4].trim(),
      start,
      end: start + match[2].length,
      line: alone ? line + 1 : line,
    };
  });
}

/** Marks what is silenced by its line, and adds what silences nothing. `unchangeable`: rules that no comment silences. */
export function withIgnores(
  findings: readonly Finding[],
  text: string,
  unchangeable: (rule: string) => boolean,
  known: (rule: string) => boolean,
): Finding[] {
  if (!text.includes('framewright-ignore')) return [...findings];
  const lines = linesOf(text);
  const ignores = ignoresIn(text, lines);
  const used = new Set<Ignore>();
  const marked = findings.map((finding) => {
    const { line } = lines.positionAt(finding.range.start);
    const ignore = ignores.find(
      (each) => each.rule === finding.rule && each.line === line && each.reason !== '',
    );
    if (ignore === undefined || unchangeable(finding.rule)) return finding;
    used.add(ignore);
    return { ...finding, ignored: ignore.reason };
  });
  const unused = ignores
    .filter((ignore) => !used.has(ignore))
    .map(
      (ignore): Finding => ({
        rule: unusedIgnore.name,
        severity: unusedIgnore.severity,
        message: complaint(ignore, unchangeable, known),
        range: { start: ignore.start, end: ignore.end },
        related: [],
        ignored: null,
        replacements: [],
      }),
    );
  return [...marked, ...unused];
}

function complaint(
  ignore: Ignore,
  unchangeable: (rule: string) => boolean,
  known: (rule: string) => boolean,
): string {
  if (ignore.rule === '') return 'name the rule to be silenced, and why: `# framewright-ignore RULE: reason`';
  if (!known(ignore.rule)) return `there is no rule ${ignore.rule}`;
  if (unchangeable(ignore.rule))
    return `${ignore.rule} guards the work or the sign-off and cannot be silenced`;
  if (ignore.reason === '') return `a reason is required: \`# framewright-ignore ${ignore.rule}: reason\``;
  return `${ignore.rule} is not raised here: this comment silences nothing`;
}
