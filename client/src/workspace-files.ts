import { FileType, l10n, Uri, ViewColumn, type WorkspaceFolder, window, workspace } from 'vscode';

/** The folder that a new file goes into: the open file's, else the only one, else one that is asked for. */
export const folderForNewFile = async (): Promise<WorkspaceFolder | undefined> => {
  const folders = workspace.workspaceFolders ?? [];
  if (folders.length === 0) {
    void window.showInformationMessage(
      l10n.t('Open a folder first: jobs and chassis files are kept in one.'),
    );
    return undefined;
  }
  const uri = window.activeTextEditor?.document.uri;
  const own = uri && workspace.getWorkspaceFolder(uri);
  return own ?? (folders.length === 1 ? folders[0] : window.showWorkspaceFolderPick());
};

export const exists = async (uri: Uri): Promise<boolean> => {
  try {
    await workspace.fs.stat(uri);
    return true;
  } catch {
    return false;
  }
};

/** Names of the files in a folder, in lower case; none where there is no such folder. */
export const namesIn = async (folder: Uri): Promise<Set<string>> => {
  try {
    const entries = await workspace.fs.readDirectory(folder);
    return new Set(
      entries.filter(([, type]) => type !== FileType.Directory).map(([name]) => name.toLowerCase()),
    );
  } catch {
    return new Set();
  }
};

/** Writes a new file, with the folders that it needs, and shows it. */
export const writeAndShow = async (uri: Uri, text: string) => {
  await workspace.fs.createDirectory(Uri.joinPath(uri, '..'));
  await workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  return window.showTextDocument(uri, { viewColumn: columnForFile() });
};

/** Where a file is shown so that it does not cover what is no text, such as the walkthrough that led to it. */
export const columnForFile = (): ViewColumn => {
  // by its number: which group is the active one, the editor may see otherwise by the time it opens the file
  const editors = [window.activeTextEditor, ...window.visibleTextEditors];
  const column = editors.find((editor) => editor?.viewColumn !== undefined)?.viewColumn;
  const isEmpty = window.tabGroups.activeTabGroup.activeTab === undefined;
  return column ?? (isEmpty ? ViewColumn.Active : ViewColumn.Beside);
};
