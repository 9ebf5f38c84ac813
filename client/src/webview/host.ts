import type { FromPage } from '../drawing/messages';

declare const acquireVsCodeApi: () => { postMessage(message: FromPage): void };

/** The editor's side; may be asked for once only. */
const host = acquireVsCodeApi();

export const tell = (message: FromPage): void => host.postMessage(message);
