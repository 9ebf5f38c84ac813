/**
 * The one way to start what nobody waits for; a test finds every promise that is neither awaited nor handed to this.
 * @param failed called with what it was rejected with
 */
export function unawaited(promise: Promise<unknown>, failed: (error: unknown) => void): void {
  promise.then(undefined, failed);
}
