// The server's worker in a real browser: the bundle must load there, answer and report.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { sharedBrowser } from './window';

const script = path.join(import.meta.dirname, '../../../server/dist/browser.js');
const jobText = 'framewright: readings/1\nchassis: nowhere.chassis.yaml\ntimelin: []\n';

interface Message {
  id?: number | string;
  method?: string;
  params?: { uri?: string; diagnostics?: { code?: string }[] };
  result?: { capabilities?: object };
}

test('the worker answers initialize, opens a file and reports', async () => {
  const page = await (await sharedBrowser()).newPage();
  try {
    const received = await page.evaluate(
      ([source, text]) =>
        new Promise<Message[]>((resolve, reject) => {
          const worker = new Worker(URL.createObjectURL(new Blob([source], { type: 'text/javascript' })));
          const messages: Message[] = [];
          const uri = 'memory:/job.readings.yaml';
          const send = (message: object): void => worker.postMessage({ jsonrpc: '2.0', ...message });
          setTimeout(() => reject(new Error(`no findings; received ${JSON.stringify(messages)}`)), 60_000);
          worker.onerror = (event) => reject(new Error(event.message));
          worker.onmessage = ({ data }: { data: Message }) => {
            messages.push(data);
            if (data.id === 1 && !data.method) {
              send({ method: 'initialized', params: {} });
              const textDocument = { uri, languageId: 'framewright-readings', version: 1, text };
              send({ method: 'textDocument/didOpen', params: { textDocument } });
            } else if (data.method === 'framewright/listFiles') send({ id: data.id, result: { uris: [] } });
            else if (data.method === 'framewright/readFile') send({ id: data.id, result: { text: null } });
            else if (data.method && data.id !== undefined) send({ id: data.id, result: null });
            if (data.method === 'textDocument/publishDiagnostics' && data.params?.diagnostics?.length)
              resolve(messages);
          };
          const params = {
            processId: null,
            // a document of another scheme than its folders' is no file of theirs
            rootUri: 'memory:/',
            capabilities: {},
            initializationOptions: { readFilesThroughClient: true },
          };
          send({ id: 1, method: 'initialize', params });
        }),
      [readFileSync(script, 'utf8'), jobText],
    );
    expect(received.find(({ id, method }) => id === 1 && !method)?.result?.capabilities).toBeTypeOf('object');
    const codes = received.flatMap(({ params }) => params?.diagnostics ?? []).map(({ code }) => code);
    expect(codes).toContain('text/unknown-key');
  } finally {
    await page.close();
  }
});
