// How a session ends over the standard streams of a process: as the protocol wants it, too early, or with what no client should send.
import { spawn } from 'node:child_process';
import { expect, test } from 'vitest';
import { cliPath } from './client';

const framed = (message: object): string => {
  const body = JSON.stringify({ jsonrpc: '2.0', ...message });
  return `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
};
const params = { processId: null, rootUri: null, capabilities: {} };
const initialize = framed({ id: 1, method: 'initialize', params });
const exit = framed({ method: 'exit' });

/** What comes of a session that is sent this, with its input left open. */
const sessionOf = (input: string): Promise<{ code: number | null; out: string; err: string }> =>
  new Promise((resolve) => {
    const server = spawn(process.execPath, [cliPath, 'lsp', '--stdio']);
    let [out, err] = ['', ''];
    server.stdout.on('data', (data) => {
      out += data;
    });
    server.stderr.on('data', (data) => {
      err += data;
    });
    server.on('close', (code) => resolve({ code, out, err }));
    server.stdin.write(input);
  });

test.each([
  ['a header without a length', 'Content-Type: text\r\n\r\n{}'],
  ['a length that is no number', 'Content-Length: many\r\n\r\n{}'],
  ['a header without a colon', 'garbage\r\n\r\n{}'],
  ['a body that is no JSON', 'Content-Length: 2\r\n\r\n{['],
])('%s is told, and ends the session', async (_, broken) => {
  const { code, out, err } = await sessionOf(`${initialize}${broken}`);
  expect(code).toBe(1);
  expect(err).toMatch(/^framewright: what the editor sent cannot be read: .+/);
  expect(err).not.toMatch(/^\s+at /m);
  // what came before it was answered
  expect(out).toContain('"serverInfo"');
});

test('`exit` ends it at any time: cleanly after `shutdown` alone', async () => {
  const shutdown = framed({ id: 2, method: 'shutdown' });
  expect(await sessionOf(exit)).toMatchObject({ code: 1, err: '' });
  expect(await sessionOf(`${initialize}${exit}`)).toMatchObject({ code: 1, err: '' });
  expect(await sessionOf(`${initialize}${shutdown}${exit}`)).toMatchObject({ code: 0, err: '' });
});

test('a request before `initialize` is answered with the error for that', async () => {
  const { out } = await sessionOf(`${framed({ id: 7, method: 'shutdown' })}${exit}`);
  expect(out).toContain('"id":7');
  expect(out).toContain('-32002');
});
