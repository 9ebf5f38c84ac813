// What cannot be looked into is told to the editor: in its log, and above the list of jobs.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, test } from 'vitest';
import { carChassis, jobOn, measured } from '../../server/src/testing/car';
import { uriOf } from './client';
import { ShopServer } from './shop-server';

test('a link out of the repository and a FIFO, until they are gone', async () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'framewright-shop-'));
  const [link, fifo] = ['old', 'w-2.readings.yaml'].map((name) => path.join(folder, name));
  try {
    mkdirSync(path.join(folder, '.git'));
    writeFileSync(path.join(folder, 'car.chassis.yaml'), carChassis);
    const job = path.join(folder, 'w-1.readings.yaml');
    writeFileSync(job, jobOn(measured('      latch: [3050, 0, 780]')));
    symlinkSync(path.dirname(folder), link);
    execFileSync('mkfifo', [fifo]);
    const server = await ShopServer.started(folder);
    await server.checked();
    type Listed = { entries: { uri: string }[]; unread: { uri: string; message: string }[] };
    const listed = await server.connection.sendRequest<Listed>('framewright/jobs', {});
    expect(listed.entries).toHaveLength(2);
    expect(listed.unread).toEqual([
      { uri: uriOf(link), message: 'this link leads out of the repository' },
      { uri: uriOf(fifo), message: 'it is not an ordinary file' },
    ]);
    const logged = () =>
      server.told.flatMap(({ method, params }) =>
        method === 'window/logMessage' && /not looked into/.test(params.message) ? [params.message] : [],
      );
    const words = [`not looked into: ${uriOf(link)}: this link leads out of the repository`];
    expect(logged()).toEqual([...words, `not looked into: ${uriOf(fifo)}: it is not an ordinary file`]);

    for (const each of [link, fifo]) rmSync(each);
    await server.connection.sendNotification('framewright/checkWorkspace', {});
    const told = () => server.told.findLast(({ method }) => method === 'framewright/jobsChanged')?.params;
    await server.until(() => told()?.unread.length === 0, 'that all was looked into');
    expect(logged()).toHaveLength(2);
    await server.end();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
