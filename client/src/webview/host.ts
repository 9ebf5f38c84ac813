import type { FromPage, Kept } from '../drawing/messages';

declare const acquireVsCodeApi: () => { postMessage(message: FromPage): void; setState(state: Kept): void };

/** The editor's side; may be asked for once only. */
const host = acquireVsCodeApi();

export const tell = (message: FromPage): void => host.postMessage(message);
/** The editor gives it back to whoever makes the page anew in another window. */
export const keep = (state: Kept): void => host.setState(state);
