import { type Fixed, fixesTaken } from '../editor/actions/fixes-taken';
import type { Files } from '../workspace/files';
import { canonicalUri } from '../workspace/uris';
import { Workspace } from '../workspace/workspace';

/** Takes the fixes of a file among others; answers why that could not be, where it cannot be read or judged. */
export const fixedText = (files: Files, uri: string, unsafe: boolean): Promise<Fixed | string> =>
  fixesTaken(
    (text) => new Workspace(text === null ? files : withTexts(files, new Map([[uri, text]]))).analysis(uri),
    unsafe,
  );

/** The same files, some of them with another text. */
export const withTexts = (files: Files, texts: ReadonlyMap<string, string>): Files => {
  const byUri = new Map([...texts].map(([uri, text]) => [canonicalUri(uri), text]));
  return {
    ...files,
    read: async (uri) => {
      const text = byUri.get(canonicalUri(uri));
      return text === undefined ? files.read(uri) : { kind: 'text', text };
    },
  };
};
