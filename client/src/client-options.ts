import type { FileSystemWatcher } from 'vscode';
import type { LanguageClientOptions, Middleware } from 'vscode-languageclient';
import { output } from './output';
import { languageIds, namePatterns } from './patterns';
import { rulePageScheme } from './rule-pages';
import { showing } from './showing';

/**
 * What both kinds of client, desktop and web, tell the server at its start.
 *
 * `readFilesThroughClient`: which files the server asks the editor for, by `framewright/listFiles` and
 * `framewright/readFile`: all (true: a web worker has no disk) or those that are on no disk (`virtual`).
 * `shows`: commands that the server may name in what it offers.
 * `spreadsheets`: where a web worker finds the script that reads them.
 * `tellsCursor`: it tells where the cursor is (`cursor-line.ts`): a row that is being typed is left in peace.
 * `watchesFiles`: the client tells of changed files by itself and need not be asked to.
 */
export const clientOptions = (
  watchers: FileSystemWatcher[],
  readFilesThroughClient: true | 'virtual',
  middleware: Middleware,
  spreadsheets: string | null = null,
): LanguageClientOptions => ({
  documentSelector: [
    ...languageIds.map((language) => ({ language })),
    ...namePatterns.map((pattern) => ({ pattern })),
  ],
  synchronize: { fileEvents: watchers },
  middleware,
  initializationOptions: {
    rulePages: `${rulePageScheme}:/`,
    asks: true,
    shows: showing,
    tellsCursor: true,
    watchesFiles: true,
    spreadsheets,
    readFilesThroughClient,
  },
  outputChannel: output(),
  traceOutputChannel: output(),
});
