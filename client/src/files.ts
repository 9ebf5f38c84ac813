import type { FileText, FileUris } from '@framewright/schemas/wire';
import { type Disposable, Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { namePatterns } from './patterns';

/** A search in a very large folder ends here; files beyond it are still read when a job names them. */
const mostFiles = 10_000;

/**
 * Answers the server of files that it cannot read itself: which of ours the workspace holds, and what stands in one.
 *
 * - `framewright/listFiles` {} → { uris: string[] }
 * - `framewright/readFile` { uri } → { text: string | null }, null where there is no such file
 */
export const answerFileRequests = (client: BaseLanguageClient): Disposable[] => [
  client.onRequest('framewright/listFiles', async (_: unknown, token): Promise<FileUris> => {
    const found = await workspace.findFiles(`{${namePatterns.join(',')}}`, undefined, mostFiles, token);
    return { uris: found.map((uri) => uri.toString()) };
  }),
  client.onRequest('framewright/readFile', async ({ uri }: { uri: string }): Promise<FileText> => {
    try {
      const bytes = await workspace.fs.readFile(Uri.parse(uri, true));
      return { text: new TextDecoder().decode(bytes) };
    } catch {
      // No such file, a folder, no permission: to the server each is "cannot be read", and it says so.
      return { text: null };
    }
  }),
];
