import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { lifecycle } from '../protocol/lifecycle';
import { startSession } from './start';

interface Stray {
  readonly reason?: unknown;
  readonly error?: unknown;
  preventDefault(): void;
}

declare const self: ConstructorParameters<typeof BrowserMessageReader>[0] & {
  addEventListener(type: string, listener: (event: Stray) => void): void;
};

/** The door for an editor in a browser: a web worker, whose files all come through the editor. */
const { strayed } = startSession(
  createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self), lifecycle()),
  null,
);
for (const type of ['error', 'unhandledrejection'] as const)
  self.addEventListener(type, (event: Stray) => {
    event.preventDefault();
    strayed(event.error ?? event.reason);
  });
