import type { FileSystemWatcher } from 'vscode';
import type { LanguageClientOptions } from 'vscode-languageclient';
import { output } from './output';
import { languageIds, namePatterns } from './patterns';
import { rulePageScheme } from './rule-pages';

/**
 * What both kinds of client, desktop and web, tell the server at its start.
 *
 * `readFilesThroughClient`: the server has no disk of its own there (a web worker, a virtual workspace) and
 * asks the editor for files by `framewright/listFiles` and `framewright/readFile`.
 * `watchesFiles`: the client tells of changed files by itself and need not be asked to.
 */
export const clientOptions = (
  watchers: FileSystemWatcher[],
  readFilesThroughClient: boolean,
): LanguageClientOptions => ({
  documentSelector: [
    ...languageIds.map((language) => ({ language })),
    ...namePatterns.map((pattern) => ({ pattern })),
  ],
  synchronize: { fileEvents: watchers },
  initializationOptions: {
    rulePages: `${rulePageScheme}:/`,
    asks: true,
    watchesFiles: true,
    readFilesThroughClient,
  },
  outputChannel: output(),
  traceOutputChannel: output(),
});
