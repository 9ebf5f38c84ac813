import { type Connection, ErrorCodes, type Message, ResponseError } from 'vscode-languageserver';

/** Where a request goes that comes at a wrong time. */
const refused = 'framewright/refused';

interface Refusal {
  readonly code: number;
  readonly message: string;
}

/**
 * Lets messages through in the order that the protocol wants: requests before `initialize` and after `shutdown` get its errors,
 * notifications then are dropped, all but `exit`. Given to the connection when it is made.
 */
export function lifecycle() {
  let stage: 'new' | 'running' | 'ended' = 'new';
  const refusal = (method: string): Refusal | null => {
    if (stage === 'ended')
      return {
        code: ErrorCodes.InvalidRequest,
        message: 'the session was shut down: only `exit` may follow',
      };
    if (stage === 'new' && method !== 'initialize')
      return { code: ErrorCodes.ServerNotInitialized, message: '`initialize` must come first' };
    return stage === 'running' && method === 'initialize'
      ? { code: ErrorCodes.InvalidRequest, message: '`initialize` was sent already' }
      : null;
  };
  return {
    messageStrategy: {
      handleMessage<T>(message: Message, next: (message: Message) => T): T | undefined {
        const { method, id } = message as { method?: string; id?: unknown };
        // the answer to a question of ours
        if (method === undefined) return next(message);
        const isRequest = id !== undefined;
        const reason = refusal(method);
        if (reason !== null) {
          if (isRequest) return next({ ...message, method: refused, params: reason } as Message);
          return method === 'exit' ? next(message) : undefined;
        }
        if (method === 'initialize') stage = 'running';
        if (method === 'shutdown') stage = 'ended';
        return next(message);
      },
    },
  };
}

/** Answers what `lifecycle` does not let through. */
export const answerRefused = (connection: Connection): void => {
  connection.onRequest(refused, ({ code, message }: Refusal) => new ResponseError(code, message));
};
