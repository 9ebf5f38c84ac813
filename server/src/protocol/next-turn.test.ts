import { PassThrough } from 'node:stream';
import { expect, it } from 'vitest';
import { createMessageConnection } from 'vscode-languageserver';
import { StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { messagesHanded, nextTurn } from './next-turn';

it('a task that is to come soon does not run at once', async () => {
  const order: string[] = [];
  const ran = new Promise<void>((resolve) =>
    nextTurn(() => {
      order.push('task');
      resolve();
    }),
  );
  order.push('first');
  await Promise.resolve();
  order.push('then');
  await ran;
  expect(order).toEqual(['first', 'then', 'task']);
});

it('a message that has come is answered before work goes on', async () => {
  const wire = new PassThrough();
  const receiver = createMessageConnection(
    new StreamMessageReader(wire),
    new StreamMessageWriter(new PassThrough()),
  );
  const order: string[] = [];
  receiver.onNotification('edit', () => {
    order.push('edit');
  });
  receiver.listen();
  const sender = createMessageConnection(
    new StreamMessageReader(new PassThrough()),
    new StreamMessageWriter(wire),
  );
  for (let turn = 0; turn < 3; turn++) {
    await sender.sendNotification('edit', {});
    await messagesHanded();
    order.push('work');
  }
  expect(order).toEqual(['edit', 'work', 'edit', 'work', 'edit', 'work']);
});
