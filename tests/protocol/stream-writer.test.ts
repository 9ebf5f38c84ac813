import { PassThrough, Writable } from 'node:stream';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Message, type NotificationMessage, StreamMessageReader } from 'vscode-languageserver/node';
import { StreamWriter } from '../../server/src/node/messages';

const place = { start: { line: 1, character: 2 }, end: { line: 1, character: 9 } };
const published = (version: number, messages: readonly string[]): NotificationMessage => ({
  jsonrpc: '2.0',
  method: 'textDocument/publishDiagnostics',
  params: {
    uri: 'file:///é.yaml',
    version,
    diagnostics: messages.map((message) => ({ range: place, message })),
  },
});
const other = (id: number, result: string): Message & { id: number } => ({
  jsonrpc: '2.0',
  id,
  ...{ result },
});

/** A pipe that takes what it was given some time later, and only then says so. */
function slowPipe(): { into: Writable; out: PassThrough } {
  const out = new PassThrough();
  const into = new Writable({
    write: (chunk, _encoding, done) => {
      setImmediate(() => {
        out.write(Buffer.from(chunk));
        done();
      });
    },
  });
  return { into, out };
}

test('messages of both kinds come whole and in their order, whether the one before was taken or not', async () => {
  const text = fc.string({
    unit: fc.constantFrom('a', '"', '\\', '\n', '\0', '\x7f', '±', '”', '\u2028', '\ud800', '\u{1F697}'),
  });
  const message = fc.oneof(
    fc.tuple(fc.nat(), fc.array(text, { maxLength: 5 })).map(([version, texts]) => published(version, texts)),
    fc.tuple(fc.nat(), text).map(([id, result]) => other(id, result)),
  );
  const sent = fc.record({ message, isAwaited: fc.boolean() });
  await fc.assert(
    fc.asyncProperty(fc.array(sent, { minLength: 1, maxLength: 8 }), async (all) => {
      const { into, out } = slowPipe();
      const writer = new StreamWriter(into);
      const received: Message[] = [];
      const end = new Promise<void>((resolve) => {
        new StreamMessageReader(out).listen((message) => {
          if (received.push(message) === all.length) resolve();
        });
      });
      for (const { message, isAwaited } of all) {
        const written = writer.write(message);
        if (isAwaited) await written;
      }
      await end;
      expect(received).toEqual(all.map(({ message }) => JSON.parse(JSON.stringify(message))));
    }),
    { numRuns: 40 },
  );
});

test('each message is one write', async () => {
  const writes: Buffer[] = [];
  const stream = new Writable({
    write: (chunk, _encoding, done) => {
      writes.push(Buffer.from(chunk));
      done();
    },
  });
  const writer = new StreamWriter(stream);
  await writer.write(published(1, ['a', 'b']));
  await writer.write(other(1, '“c”'));
  expect(writes).toHaveLength(2);
});

test('a stream that breaks is told of, with the message', async () => {
  const stream = new Writable({ write: (_chunk, _encoding, done) => done(new Error('broken')) });
  const writer = new StreamWriter(stream);
  const told: unknown[] = [];
  writer.onError(([error, message, count]) => told.push([error.message, message, count]));
  const message = published(1, ['a']);
  await expect(writer.write(message)).rejects.toThrow('broken');
  expect(told).toContainEqual(['broken', message, 1]);
});

test('a message that is no JSON is refused, and the next one is written', async () => {
  const circle: { self?: object } = {};
  circle.self = circle;
  const stream = new PassThrough();
  const writer = new StreamWriter(stream);
  await expect(writer.write({ jsonrpc: '2.0', ...{ circle } })).rejects.toThrow();
  await writer.write(other(2, 'x'));
  expect(stream.read().toString()).toMatch(/^Content-Length: \d+\r\n\r\n\{.*"id":2/);
});
