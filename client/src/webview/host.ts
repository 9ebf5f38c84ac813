import type { FromPage, PageState } from '../drawing/messages';

declare const acquireVsCodeApi: () => {
  postMessage(message: FromPage): void;
  setState(state: PageState): void;
};

/** The editor's side; may be asked for once only. */
const host = acquireVsCodeApi();

export const tell = (message: FromPage): void => host.postMessage(message);
/** The editor gives it back to whoever makes the page anew in another window. */
export const keep = (state: PageState): void => host.setState(state);
