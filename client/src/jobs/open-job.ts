import { TabInputCustom, TabInputText, type TextEditor, window } from 'vscode';
import { jobEnding } from '../patterns';
import { columnForFile } from '../workspace-files';

const isJob = ({ document }: TextEditor): boolean =>
  document.languageId === 'framewright-readings' || document.uri.path.endsWith(jobEnding);

/** The job that is looked at: in the active editor, else, where that is no text (a drawing, the walkthrough), one beside it. */
export const seenJob = (): TextEditor | undefined => {
  const { activeTextEditor: active, visibleTextEditors: visible } = window;
  return active ? (isJob(active) ? active : undefined) : visible.find(isJob);
};

/** The job that a command is about: the one that is looked at, else one that is seen, else one of a tab, which is brought to front. */
export const openJob = async (): Promise<TextEditor | undefined> => {
  const seen = seenJob() ?? window.visibleTextEditors.find(isJob);
  if (seen) return seen;
  const tabs = window.tabGroups.all.flatMap(({ tabs }) => tabs);
  const uris = tabs.map(({ input }) =>
    input instanceof TabInputText || input instanceof TabInputCustom ? input.uri : undefined,
  );
  const uri = uris.findLast((each) => each?.path.endsWith(jobEnding));
  return uri && window.showTextDocument(uri, { viewColumn: columnForFile() });
};
