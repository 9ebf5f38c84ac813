type Turn = (task: () => void) => void;

/** After what is being handled now; a timer of nothing still costs milliseconds where there is something better. */
export const nextTurn: Turn =
  (globalThis as { setImmediate?: Turn }).setImmediate ??
  (typeof MessageChannel === 'undefined' ? (task) => setTimeout(task, 0) : byMessages());

/** In a web worker: a message to oneself, which takes its turn among those of the page. */
function byMessages(): Turn {
  const { port1, port2 } = new MessageChannel();
  const tasks: (() => void)[] = [];
  port1.addEventListener('message', () => tasks.shift()?.());
  port1.start();
  return (task) => {
    tasks.push(task);
    port2.postMessage(null);
  };
}

/** So many turns a message takes from its arrival to the one who answers it. */
const turnsOfMessage = 4;

/** When messages that have come by now have been handed on. */
export async function messagesHanded(): Promise<void> {
  for (let turn = 0; turn < turnsOfMessage; turn++) await new Promise<void>(nextTurn);
}
