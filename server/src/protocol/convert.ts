import type { EditChoices, EditsWithQuestion } from '@framewright/schemas/wire';
import {
  type ClientCapabilities,
  type CodeAction,
  type Diagnostic,
  DiagnosticSeverity,
  DiagnosticTag,
  type Hover,
  type MarkupContent,
  type Position,
  type Range,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { type Action, answerMark, reasonMark, type ShowingCommand } from '../editor/actions/code-action';
import type { HoverText } from '../editor/hover/hover-text';
import type { Finding, TextRange } from '../findings/rule/finding';
import { ruleNamed } from '../findings/rule-list';
import { Slot } from '../memory/slot';
import type { Severity } from '../model/read/settings';
import { applyEdits, type TextEdit as PlainEdit } from '../text/edits';
import { type LineTable, linesOf } from '../text/lines';

/** Plain data to protocol types; the only direction in which the two meet. */

export const rangeOf = (range: TextRange, lines: LineTable): Range => {
  const start = lines.positionAt(range.start);
  const lineStart = lines.startOf(start.line);
  // most ranges end in the line they begin in
  const endsThere = range.end >= lineStart && range.end <= lines.endOf(start.line);
  return {
    start,
    end: endsThere ? { line: start.line, character: range.end - lineStart } : lines.positionAt(range.end),
  };
};

const severities: Record<Severity, DiagnosticSeverity> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
};

/** Of a finding that points nowhere else, what the editor was told of it last, and where it shows rules' pages from. */
const plainDiagnostics = new Slot<
  Finding,
  { readonly rulePages: string | null; readonly told: Diagnostic }
>();

/** A finding that an edit left where it was gives the same diagnostic again. */
export function diagnosticOf(
  finding: Finding,
  lines: LineTable,
  linesIn: (uri: string) => LineTable | null,
  rulePages: string | null,
): Diagnostic {
  if (finding.related.length > 0) return diagnosticFrom(finding, lines, linesIn, rulePages);
  const known = plainDiagnostics.get(finding);
  if (known?.rulePages === rulePages && isStill(known.told.range, finding.range, lines)) return known.told;
  const told = diagnosticFrom(finding, lines, linesIn, rulePages);
  plainDiagnostics.set(finding, { rulePages, told });
  return told;
}

/** Whether the range is still at these offsets: lines before it may have come or gone. */
const isStill = ({ start, end }: Range, range: TextRange, lines: LineTable): boolean =>
  isAt(start, range.start, lines) && isAt(end, range.end, lines);

const isAt = ({ line, character }: Position, offset: number, lines: LineTable): boolean =>
  line < lines.lineCount && lines.startOf(line) + character === offset && offset <= lines.endOf(line);

function diagnosticFrom(
  finding: Finding,
  lines: LineTable,
  linesIn: (uri: string) => LineTable | null,
  rulePages: string | null,
): Diagnostic {
  const { rule, related } = finding;
  const diagnostic: Diagnostic = {
    range: rangeOf(finding.range, lines),
    severity: severities[finding.severity],
    source: 'framewright',
    code: rule,
    message: finding.message,
  };
  if (rulePages !== null) diagnostic.codeDescription = { href: `${rulePages}${rule}.md` };
  if (ruleNamed(rule)?.unneeded) diagnostic.tags = [DiagnosticTag.Unnecessary];
  if (related.length > 0)
    diagnostic.relatedInformation = related.flatMap(({ uri, message, range }) => {
      const table = linesIn(uri);
      return table === null ? [] : [{ location: { uri, range: rangeOf(range, table) }, message }];
    });
  return diagnostic;
}

/** Markdown for an editor that says what it shows it with; for one that does not, without what only a page needs. */
export const markdownOf = (value: string, { general }: ClientCapabilities): MarkupContent => ({
  kind: 'markdown',
  value: general?.markdown ? value : value.replaceAll('&nbsp;', ''),
});

export const hoverOf = (hover: HoverText, lines: LineTable, able: ClientCapabilities): Hover => ({
  contents: markdownOf(hover.markdown, able),
  range: rangeOf(hover.range, lines),
});

export const editOf = (edit: PlainEdit, lines: LineTable): TextEdit => ({
  range: rangeOf(edit, lines),
  newText: edit.text,
});

/** What an editor can do with an action. */
interface ActionAbilities {
  /** it can put a question to the person and fill the answer in */
  readonly asks: boolean;
  /** it comes back for the edit of an action that was chosen */
  readonly resolvesEdits: boolean;
  /** It shows edits for consent before it makes them. */
  readonly asksConsent?: boolean;
}

export function codeActionOf(
  action: Action,
  uri: string,
  lines: LineTable,
  diagnostics: readonly Diagnostic[],
  { asks, resolvesEdits, asksConsent }: ActionAbilities,
): CodeAction {
  const { title, kind, mends } = action;
  const mended = mends
    ? {
        diagnostics: diagnostics.filter(
          (each) => each.code === mends.rule && sameRange(each.range, rangeOf(mends.range, lines)),
        ),
      }
    : {};
  const base = { title, kind, ...(action.preferred ? { isPreferred: true } : {}), ...mended };
  if (action.shows)
    return {
      ...base,
      command: { title, command: action.shows.command, arguments: [uri, ...action.shows.with] },
    };
  if (action.choices) {
    const choices: EditChoices = {
      uri,
      title,
      choices: action.choices.map((each) => ({
        title: each.title,
        edits: each.edits.map((edit) => editOf(edit, lines)),
      })),
    };
    return { ...base, command: { title, command: chooseCommand, arguments: [choices] } };
  }
  const question = asks ? questionOf(action, uri, lines) : null;
  if (question !== null) return { ...base, command: { title, command: askCommand, arguments: [question] } };
  return resolvesEdits ? base : withEdit(base, action, uri, lines, asksConsent);
}

/** What a person is asked before the edits are made; null for an action that asks nothing. */
export function questionOf({ ask, edits }: Action, uri: string, lines: LineTable): EditsWithQuestion | null {
  if (ask === undefined) return null;
  return {
    uri,
    ask: ask.question,
    of: ask.of,
    mark: reasonMark,
    edits: edits.map((edit) => editOf(edit, lines)),
    ...(ask.thenSeals ? { thenSeals: true as const } : {}),
  };
}

/** An action with what it does to the text. */
export const withEdit = (
  listed: CodeAction,
  action: Action,
  uri: string,
  lines: LineTable,
  asksConsent = false,
): CodeAction => ({
  ...listed,
  edit: action.elsewhere
    ? editElsewhere(action.title, action.elsewhere, asksConsent)
    : { changes: { [uri]: emptyEdits(action, lines) } },
});

/** Edits of another file; where the editor can, they are shown before they are made. */
function editElsewhere(
  title: string,
  { uri, text, edits, told }: NonNullable<Action['elsewhere']>,
  asksConsent: boolean,
): WorkspaceEdit {
  const lines = linesOf(text);
  const made = edits.map((edit) => editOf(edit, lines));
  if (!asksConsent) return { changes: { [uri]: made } };
  return {
    documentChanges: [
      {
        textDocument: { uri, version: null },
        edits: made.map((edit) => ({ ...edit, annotationId: title })),
      },
    ],
    changeAnnotations: { [title]: { label: title, description: told, needsConfirmation: true } },
  };
}

/** Where there is nobody to ask: what is left empty is reported until a person fills it in. */
export const emptyEdits = (action: Action, lines: LineTable): TextEdit[] =>
  action.edits
    .map((edit) => editOf(edit, lines))
    .map((edit) => ({
      ...edit,
      newText: edit.newText.replaceAll(answerMark, '""').replaceAll(reasonMark, ''),
    }));

/** Where what an action writes begins, in the text as it is then. */
export function writtenAt(action: Action, text: string): Position | null {
  const [first] = [...action.edits].sort((a, b) => a.start - b.start);
  if (first === undefined) return null;
  const begins = first.start + Math.max(0, first.text.search(/\S/));
  return linesOf(applyEdits(text, action.edits)).positionAt(begins);
}

/** A command of the editor's side: lets a person choose. */
const chooseCommand = 'framewright.choose' satisfies ShowingCommand;

/** A command of the editor's side: asks a person, puts the answer in the place of each mark, quoted where that is, and makes the edits. */
const askCommand = 'framewright.applyWithAnswer';

const sameRange = (a: Range, b: Range): boolean =>
  a.start.line === b.start.line &&
  a.start.character === b.start.character &&
  a.end.line === b.end.line &&
  a.end.character === b.end.character;
