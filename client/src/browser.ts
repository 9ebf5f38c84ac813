import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { clientOptions } from './client-options';
import { endSession, startSession } from './session';

// The types of the web are not those of the rest of the project, so the one thing needed of them is named here.
declare const Worker: new (url: string, options?: { name?: string }) => never;

/** The door for an editor in a browser: the server is a web worker. */
export const activate = (context: ExtensionContext): Promise<void> =>
  startSession(context, (watchers, middleware) => {
    const script = Uri.joinPath(context.extensionUri, 'dist/browser-server.js');
    const worker = new Worker(script.toString(true), { name: 'Framewright' });
    const spreadsheets = Uri.joinPath(context.extensionUri, 'dist/browser-spreadsheet.js').toString(true);
    const options = clientOptions(watchers, true, middleware, spreadsheets);
    return new LanguageClient('framewright', 'Framewright', worker, options);
  });

export const deactivate = endSession;
