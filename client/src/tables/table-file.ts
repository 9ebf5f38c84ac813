import { l10n, Uri, window, workspace } from 'vscode';
import { base64 } from './base64';

/** Nothing larger is a table of measurements, bytes; the server says the same of what it is sent. */
const largestTable = 50 * 1024 * 1024;
/** So many tables of the workspace are listed. */
const mostListed = 50;

/** The bytes of a table in base64; or why they are not read. */
export async function tableBytes(
  table: Uri,
): Promise<{ readonly bytes: string } | { readonly message: string }> {
  try {
    const { size } = await workspace.fs.stat(table);
    if (size > largestTable) return { message: 'the table is larger than 50 MB' };
    return { bytes: base64(await workspace.fs.readFile(table)) };
  } catch (reason) {
    return { message: `it cannot be read (${reason instanceof Error ? reason.message : reason})` };
  }
}

/** A table that a person chooses: one of the workspace, or any file that the editor can reach. */
export async function askedTable(title: string, near: Uri | undefined): Promise<Uri | undefined> {
  const found = await workspace.findFiles('**/*.{csv,tsv,txt,xlsx}', '**/node_modules/**', mostListed);
  if (found.length === 0) return otherFile(title, near);
  const picks = found
    .map((uri) => ({ label: workspace.asRelativePath(uri), uri }))
    .sort((a, b) => a.label.localeCompare(b.label, 'en'));
  const other = { label: 'Another file…', uri: null };
  const chosen = await window.showQuickPick([...picks, other], { title, placeHolder: l10n.t('Table') });
  return chosen === undefined ? undefined : (chosen.uri ?? otherFile(title, near));
}

async function otherFile(title: string, near: Uri | undefined): Promise<Uri | undefined> {
  const chosen = await window.showOpenDialog({
    title,
    openLabel: l10n.t('Read Table'),
    filters: { Tables: ['csv', 'tsv', 'txt', 'xlsx'], 'All Files': ['*'] },
    defaultUri: near && Uri.joinPath(near, '..'),
  });
  return chosen?.[0];
}

export const nameOf = ({ path }: Uri): string => path.slice(path.lastIndexOf('/') + 1);
