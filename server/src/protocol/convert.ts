import {
  type CodeAction,
  type Diagnostic,
  DiagnosticSeverity,
  DiagnosticTag,
  type Hover,
  type Range,
  type TextEdit,
} from 'vscode-languageserver';
import type { Action } from '../editor/action';
import type { HoverText } from '../editor/hover-text';
import type { Finding, TextRange } from '../findings/finding';
import type { Severity } from '../model/settings';
import type { TextEdit as PlainEdit } from '../text/edits';
import type { LineTable } from '../text/lines';

/** Plain data to protocol types; the only direction in which the two meet. */

export const rangeOf = (range: TextRange, lines: LineTable): Range => ({
  start: lines.positionAt(range.start),
  end: lines.positionAt(range.end),
});

const severities: Record<Severity, DiagnosticSeverity> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
};

/** Rules whose findings an editor may fade. */
const unused = new Set(['settings/unused-ignore', 'name/unused-part']);

export function diagnosticOf(
  finding: Finding,
  lines: LineTable,
  linesIn: (uri: string) => LineTable | null,
  rulePages: string | null,
): Diagnostic {
  return {
    range: rangeOf(finding.range, lines),
    severity: severities[finding.severity],
    source: 'framewright',
    code: finding.rule,
    ...(rulePages === null ? {} : { codeDescription: { href: `${rulePages}${finding.rule}.md` } }),
    message: finding.message,
    ...(unused.has(finding.rule) ? { tags: [DiagnosticTag.Unnecessary] } : {}),
    relatedInformation: finding.related.flatMap(({ uri, message, range }) => {
      const table = linesIn(uri);
      return table === null ? [] : [{ location: { uri, range: rangeOf(range, table) }, message }];
    }),
  };
}

export const hoverOf = (hover: HoverText, lines: LineTable): Hover => ({
  contents: { kind: 'markdown', value: hover.markdown },
  range: rangeOf(hover.range, lines),
});

export const editOf = (edit: PlainEdit, lines: LineTable): TextEdit => ({ range: rangeOf(edit, lines), newText: edit.text });

export function codeActionOf(action: Action, uri: string, lines: LineTable, diagnostics: readonly Diagnostic[]): CodeAction {
  const mended = action.mends;
  return {
    title: action.title,
    kind: action.kind,
    ...(action.preferred ? { isPreferred: true } : {}),
    ...(mended
      ? { diagnostics: diagnostics.filter((each) => each.code === mended.rule && sameRange(each.range, rangeOf(mended.range, lines))) }
      : {}),
    edit: { changes: { [uri]: action.edits.map((edit) => editOf(edit, lines)) } },
  };
}

const sameRange = (a: Range, b: Range): boolean =>
  a.start.line === b.start.line &&
  a.start.character === b.start.character &&
  a.end.line === b.end.line &&
  a.end.character === b.end.character;
