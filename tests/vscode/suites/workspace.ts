/** What the suites do in the editor, in the words of its user. */
import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { eventually } from './harness';

export const extension = (): vscode.Extension<unknown> => {
  const found = vscode.extensions.getExtension('pinefield-body-works.framewright-vscode');
  assert.ok(found, 'the extension is not installed');
  return found;
};

/** A file of the folder that the editor shows. */
export const fileUri = (path: string): vscode.Uri => {
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  assert.ok(folder, 'no folder is open');
  return vscode.Uri.joinPath(folder.uri, path);
};

export const opened = async (path: string): Promise<vscode.TextDocument> => {
  const document = await vscode.workspace.openTextDocument(fileUri(path));
  await vscode.window.showTextDocument(document);
  return document;
};

/** The findings of a file, once there is one that fits. */
export const findings = (
  document: vscode.TextDocument,
  what: string,
  fits: (all: vscode.Diagnostic[]) => boolean,
): Promise<vscode.Diagnostic[]> =>
  eventually(`findings of ${document.uri.path}: ${what}`, () => {
    const all = vscode.languages.getDiagnostics(document.uri);
    return fits(all) ? all : undefined;
  });

/** The rule that a finding names. */
export const ruleOf = (diagnostic: vscode.Diagnostic): string | undefined => {
  const { code } = diagnostic;
  return typeof code === 'object' ? String(code.value) : code === undefined ? undefined : String(code);
};

export const hasRule =
  (rule: string) =>
  (all: vscode.Diagnostic[]): boolean =>
    all.some((diagnostic) => ruleOf(diagnostic) === rule);

/** Position of a word's first letter. */
export const placeOf = (document: vscode.TextDocument, word: string): vscode.Position => {
  const offset = document.getText().indexOf(word);
  assert.ok(offset >= 0, `${word} is not in ${document.uri.path}`);
  return document.positionAt(offset);
};

export const hoverText = async (document: vscode.TextDocument, word: string): Promise<string> => {
  const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
    'vscode.executeHoverProvider',
    document.uri,
    placeOf(document, word),
  );
  return hovers
    .flatMap((hover) => hover.contents)
    .map((content) => (typeof content === 'string' ? content : content.value))
    .join('\n');
};

export const actionsAt = async (
  document: vscode.TextDocument,
  word: string,
): Promise<vscode.CodeAction[]> => {
  const at = placeOf(document, word);
  return vscode.commands.executeCommand<vscode.CodeAction[]>(
    'vscode.executeCodeActionProvider',
    document.uri,
    new vscode.Range(at, at),
    undefined,
    100,
  );
};

/** Applies the action with this title and returns the text afterwards. */
export const textAfter = async (
  document: vscode.TextDocument,
  actions: vscode.CodeAction[],
  title: string,
): Promise<string> => {
  const action = actions.find((candidate) => candidate.title === title);
  assert.ok(action, `no action "${title}" among: ${actions.map((candidate) => candidate.title).join(' | ')}`);
  assert.ok(action.edit, `"${title}" has no edit`);
  assert.ok(await vscode.workspace.applyEdit(action.edit), `"${title}" was not applied`);
  return document.getText();
};

interface Choices {
  readonly choices: readonly {
    readonly title: string;
    readonly edits: readonly { readonly range: vscode.Range; readonly newText: string }[];
  }[];
}

/** The text after one of the choices of an action is made, as the command behind it would. */
export const textAfterChoice = async (
  document: vscode.TextDocument,
  actions: vscode.CodeAction[],
  title: string,
  choice: string,
): Promise<string> => {
  const action = actions.find((candidate) => candidate.title === title);
  assert.ok(action?.command, `no "${title}" among: ${actions.map((each) => each.title).join(' | ')}`);
  const [{ choices }]: Choices[] = action.command.arguments ?? [];
  const chosen = choices.find((each) => each.title === choice);
  assert.ok(chosen, `no ${choice} among: ${choices.map((each) => each.title).join(' | ')}`);
  const edit = new vscode.WorkspaceEdit();
  for (const { range, newText } of chosen.edits) {
    const { start, end } = range;
    edit.replace(
      document.uri,
      new vscode.Range(start.line, start.character, end.line, end.character),
      newText,
    );
  }
  assert.ok(await vscode.workspace.applyEdit(edit), `"${choice}" was not applied`);
  return document.getText();
};

export const revert = (): Thenable<unknown> =>
  vscode.commands.executeCommand('workbench.action.files.revert');
