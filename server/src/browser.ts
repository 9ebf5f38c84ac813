// TO BE REPLACED
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { placeholderSession } from './placeholder-session';

declare const self: ConstructorParameters<typeof BrowserMessageReader>[0];

placeholderSession(createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self)));
