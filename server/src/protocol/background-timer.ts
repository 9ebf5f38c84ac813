export type Timer = ReturnType<typeof setTimeout>;

/** Like `setTimeout`, but a server that is told to end does not wait for it. */
export function backgroundTimer(task: () => void, ms: number): Timer {
  const timer = setTimeout(task, ms);
  // there is none in a web worker
  (timer as { unref?: () => void }).unref?.();
  return timer;
}
