import { pathToFileURL } from 'node:url';
import { runGit } from './git';
import type { FilesWithLinks } from './git-files';
import { entriesIn, TreeFiles } from './tree-files';

/**
 * What is staged, as files: a commit is judged by what will be in it, whatever stands in the work tree.
 * @param root folder of the repository
 * @throws where git cannot tell, with what it says
 */
export async function stagedFiles(root: string): Promise<FilesWithLinks> {
  const { code, stdout, stderr } = await runGit(root, ['ls-files', '-s', '-z']);
  if (code !== 0) throw new Error(stderr);
  const staged = new TreeFiles(root, entriesIn(stdout.toString()), 'among what is staged');
  const rootUri = pathToFileURL(`${root}/`).href;
  return {
    read: (uri) => staged.read(uri),
    list: async (folderUri) => ({ uris: staged.list(folderUri), unread: [] }),
    root: async () => rootUri,
    leadsOut: (uri) => staged.leadsOut(uri),
    wayOf: (uri) => staged.wayOf(uri),
    links: async () => staged.links(),
  };
}
