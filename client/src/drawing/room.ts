import { commands, workspace } from 'vscode';
import { layoutFor, widthOf } from './layout';

/** A font of fixed width: what a letter takes of its size, on average over those that editors come with. */
const letterShare = 0.602;

/**
 * Gives the text room for its rows where a view was opened beside the only editors there were. Where somebody has arranged the editors
 * or wants them below one another, nothing is changed.
 */
export async function giveRowsRoom(): Promise<void> {
  const side = workspace.getConfiguration('workbench.editor').get('openSideBySideDirection');
  if (side === 'down') return;
  const size = workspace.getConfiguration('editor').get<number>('fontSize') ?? 14;
  const width = widthOf(await commands.executeCommand('vscode.getEditorLayout'));
  await commands.executeCommand('vscode.setEditorLayout', layoutFor(width, size * letterShare));
}
