import { type CancellationToken, LSPErrorCodes, ResponseError } from 'vscode-languageserver';

/** Throws what ends a request whose answer the editor does not want any more. */
export function throwIfCancelled(token: CancellationToken): void {
  if (token.isCancellationRequested)
    throw new ResponseError(LSPErrorCodes.RequestCancelled, 'no longer wanted');
}
