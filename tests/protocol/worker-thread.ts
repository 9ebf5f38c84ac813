/** The worker's bundle in a world that has nothing of Node: what a web worker offers, and no more. */
import { readFileSync } from 'node:fs';
import vm from 'node:vm';
import {
  AbstractMessageReader,
  AbstractMessageWriter,
  type DataCallback,
  type Message,
} from 'vscode-languageserver-protocol/node';

class Reader extends AbstractMessageReader {
  private callback: DataCallback | undefined;

  listen(callback: DataCallback): { dispose(): void } {
    this.callback = callback;
    return { dispose: () => undefined };
  }

  receive(message: Message): void {
    this.callback?.(message);
  }
}

class Writer extends AbstractMessageWriter {
  constructor(private readonly deliver: (message: Message) => void) {
    super();
  }

  async write(message: Message): Promise<void> {
    this.deliver(message);
  }

  end(): void {}
}

type Listener = (event: { data: unknown }) => void;

/** Runs a worker's script and returns the page's end of the wire; `errors` is what it wrote to the console. */
export const startWorker = (script: string): { reader: Reader; writer: Writer; errors: string[] } => {
  const errors: string[] = [];
  const listeners: Listener[] = [];
  const reader = new Reader();
  const scope: Record<string, unknown> & { onmessage?: Listener } = {
    // Messages are copied on the way and arrive later, as by a real postMessage.
    postMessage: (message: Message) => {
      const copy = structuredClone(message);
      setImmediate(() => reader.receive(copy));
    },
    addEventListener: (type: string, listener: Listener) => {
      if (type === 'message') listeners.push(listener);
    },
    console: {
      log() {},
      warn() {},
      error: (...words: unknown[]) => errors.push(words.map(String).join(' ')),
    },
    ...{ setTimeout, clearTimeout, setInterval, clearInterval, queueMicrotask, structuredClone, performance },
    ...{ TextEncoder, TextDecoder, URL, URLSearchParams, AbortController, MessageChannel },
  };
  scope.self = scope;
  vm.runInNewContext(readFileSync(script, 'utf8'), scope, { filename: script });
  const writer = new Writer((message) => {
    const event = { data: structuredClone(message) };
    setImmediate(() => {
      scope.onmessage?.(event);
      for (const listener of listeners) listener(event);
    });
  });
  return { reader, writer, errors };
};
