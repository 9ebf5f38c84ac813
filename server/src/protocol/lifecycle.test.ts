import { expect, it } from 'vitest';
import { ErrorCodes } from 'vscode-languageserver';
import { memoryFiles } from '../workspace/testing/memory-files';
import { lifecycle } from './lifecycle';
import { InProcessClient } from './testing/in-process';

const hover = { textDocument: { uri: 'file:///w.readings.yaml' }, position: { line: 0, character: 0 } };

it('before `initialize` every request gets the error for that, and a second `initialize` one too', async () => {
  const client = new InProcessClient(memoryFiles({}));
  for (const [method, params] of [
    ['textDocument/hover', hover],
    ['framewright/jobs', {}],
    ['of/nobody', {}],
    ['shutdown', undefined],
  ] as const)
    await expect(client.request(method, params), method).rejects.toMatchObject({
      code: ErrorCodes.ServerNotInitialized,
    });
  // dropped: it is not taken for opened later
  await client.open('file:///w.readings.yaml', 'framewright-readings', 'framewright: readings/1\n');
  expect(await client.initialize({})).toHaveProperty('hoverProvider');
  expect(await client.request('textDocument/hover', hover)).toBeNull();
  await expect(client.request('initialize', { capabilities: {} })).rejects.toMatchObject({
    code: ErrorCodes.InvalidRequest,
  });
  expect([...client.found]).toEqual([]);
});

it('after `shutdown` every request gets the error for that', async () => {
  const client = new InProcessClient(memoryFiles({}));
  await client.initialize({});
  await client.request('shutdown');
  for (const [method, params] of [
    ['textDocument/hover', hover],
    ['framewright/jobs', {}],
    ['shutdown', undefined],
    ['initialize', { capabilities: {} }],
  ] as const)
    await expect(client.request(method, params), method).rejects.toMatchObject({
      code: ErrorCodes.InvalidRequest,
    });
});

it('lets `exit` through at any time, and drops other notifications at the wrong one', () => {
  const { messageStrategy } = lifecycle();
  const through: string[] = [];
  const send = (method: string, id?: number): void => {
    messageStrategy.handleMessage({ jsonrpc: '2.0', method, id } as never, (message) => {
      through.push((message as unknown as { method: string }).method);
    });
  };
  for (const method of ['initialized', 'textDocument/didOpen', 'exit']) send(method);
  expect(through.splice(0)).toEqual(['exit']);
  send('initialize', 1);
  for (const method of ['initialized', 'textDocument/didOpen']) send(method);
  expect(through.splice(0)).toEqual(['initialize', 'initialized', 'textDocument/didOpen']);
  send('shutdown', 2);
  for (const method of ['textDocument/didClose', 'exit']) send(method);
  expect(through).toEqual(['shutdown', 'exit']);
});
