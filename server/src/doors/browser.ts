import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { lifecycle } from '../protocol/lifecycle';
import type { SpreadsheetReader } from '../protocol/session';
import { startSession } from './start';

interface Stray {
  readonly reason?: unknown;
  readonly error?: unknown;
  preventDefault(): void;
}

declare const self: ConstructorParameters<typeof BrowserMessageReader>[0] & {
  addEventListener(type: string, listener: (event: Stray) => void): void;
  importScripts(script: string): void;
  /** What the script for spreadsheets leaves. */
  framewrightSpreadsheet?: typeof import('./spreadsheet');
};

const spreadsheets: SpreadsheetReader = async (bytes, script) => {
  if (self.framewrightSpreadsheet === undefined && script !== null) self.importScripts(script);
  if (self.framewrightSpreadsheet === undefined)
    throw new Error('the editor names no script for spreadsheets');
  return self.framewrightSpreadsheet.spreadsheetRead(bytes);
};

/** The door for an editor in a browser: a web worker, whose files all come through the editor. */
const { strayed } = startSession(
  createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self), lifecycle()),
  null,
  spreadsheets,
);
for (const type of ['error', 'unhandledrejection'] as const)
  self.addEventListener(type, (event: Stray) => {
    event.preventDefault();
    strayed(event.error ?? event.reason);
  });
