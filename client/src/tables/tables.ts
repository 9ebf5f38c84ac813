import type { Disposable } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { followCommands } from './follow-table';
import { insertMeasureCommand } from './insert-measure';
import { newChassisCommand } from './new-chassis';
import { pastingRows } from './paste-rows';

/** All by which tables come into files. */
export const tableCommands = (client: () => BaseLanguageClient | undefined): Disposable[] => [
  insertMeasureCommand(client),
  newChassisCommand(client),
  ...followCommands(client),
  ...pastingRows(client),
];
