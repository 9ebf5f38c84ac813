import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { lifecycle } from '../protocol/lifecycle';
import { startSession } from './start';

declare const self: ConstructorParameters<typeof BrowserMessageReader>[0];

/** The door for an editor in a browser: a web worker, whose files all come through the editor. */
startSession(
  createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self), lifecycle()),
  null,
);
