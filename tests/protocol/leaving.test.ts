// The editor leaves without a word, or refuses what it is asked, in the middle of a check of many files.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ResponseError } from 'vscode-languageserver-protocol/node';
import { program, repository, root } from '../cli/framewright';
import { ServerProcess } from '../server-process';
import { Waiting } from './waiting';

const sample = (name: string): string => readFileSync(path.join(root, 'samples', name), 'utf8');
let shop: ReturnType<typeof repository>;
beforeAll(() => {
  const job = sample('jobs/w-1210-typing-mistakes.readings.yaml');
  shop = repository({
    'specs/marten-hatch.chassis.yaml': sample('specs/marten-hatch.chassis.yaml'),
    ...Object.fromEntries(Array.from({ length: 400 }, (_, i) => [`jobs/w-${i}.readings.yaml`, job])),
  });
});
afterAll(() => shop.gone());

/** A server that is checking the shop; the editor refuses to show anything anew. */
async function checking() {
  const server = new ServerProcess([program, 'lsp', '--stdio']);
  const heard = { errors: '', published: 0, refused: 0 };
  const waiting = new Waiting();
  const { connection, process: child } = server;
  child.stderr.on('data', (data) => {
    heard.errors += data;
  });
  for (const pipe of [child.stdin, child.stdout]) pipe.on('error', () => {});
  connection.onError(() => {});
  connection.onNotification('textDocument/publishDiagnostics', () => {
    heard.published++;
    waiting.look();
  });
  connection.onRequest('workspace/inlayHint/refresh', () => {
    heard.refused++;
    waiting.look();
    return new ResponseError(-32603, 'the editor would rather not');
  });
  connection.listen();
  await connection.sendRequest('initialize', {
    // the editor’s process lives on: the server hears of its leaving by the pipes alone
    processId: process.pid,
    rootUri: pathToFileURL(shop.folder).href,
    capabilities: { workspace: { workspaceFolders: true, inlayHint: { refreshSupport: true } } },
  });
  await connection.sendNotification('initialized', {});
  const until = (fits: () => boolean) => waiting.until(fits, 25_000, () => JSON.stringify(heard));
  return { server, heard, until };
}

const patienceMs = 60_000;

test.each([
  ['both pipes', ['stdin', 'stdout']],
  ['the pipe that it reads', ['stdout']],
  ['the pipe that it writes', ['stdin']],
] as const)(
  'an editor that closes %s is not missed',
  async (_, pipes) => {
    const { server, heard, until } = await checking();
    await until(() => heard.published > 3);
    expect(heard.published).toBeLessThan(400);
    for (const pipe of pipes) server.process[pipe].destroy();
    expect(await server.ended).toBe(1);
    expect(heard.errors).toBe('');
  },
  patienceMs,
);

test(
  'an editor that leaves after its goodbye was heard ends the server as the protocol has it',
  async () => {
    const { server, heard } = await checking();
    await server.connection.sendRequest('shutdown');
    server.process.stdin.end();
    expect(await server.ended).toBe(0);
    expect(heard.errors).toBe('');
  },
  patienceMs,
);

test(
  'a request that the editor refuses ends nothing',
  async () => {
    const { server, heard, until } = await checking();
    await until(() => heard.refused > 0);
    const before = heard.published;
    await until(() => heard.published > before);
    expect(
      await server.connection.sendRequest('framewright/rulePage', { rule: 'internal/fault' }),
    ).toMatchObject({ markdown: expect.stringContaining('Please report it') });
    await server.connection.sendRequest('shutdown');
    await server.connection.sendNotification('exit');
    expect(await server.ended).toBe(0);
    expect(heard.errors).toBe('');
  },
  patienceMs,
);
