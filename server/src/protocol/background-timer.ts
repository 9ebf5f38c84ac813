export type Timer = ReturnType<typeof setTimeout>;

/**
 * Like `setTimeout`, but a server that is told to end does not wait for it.
 * @param failed called with what the task throws
 */
export function backgroundTimer(task: () => void, ms: number, failed: (error: unknown) => void): Timer {
  const timer = setTimeout(() => {
    try {
      task();
    } catch (error) {
      failed(error);
    }
  }, ms);
  // there is none in a web worker
  if (typeof timer === 'object') timer.unref();
  return timer;
}
