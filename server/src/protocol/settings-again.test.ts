import { expect, it, vi } from 'vitest';
import { InProcessClient } from './testing/in-process';

it('an open settings file is judged anew when files come or go', async () => {
  const folder = 'file:///shop';
  const settings = `${folder}/.framewright.yaml`;
  const job = `${folder}/archive/w.readings.yaml`;
  let uris: string[] = [];
  const client = new InProcessClient({
    read: async () => ({ kind: 'missing', message: 'not there' }),
    list: async (where) => ({ uris: uris.filter((uri) => uri.startsWith(where)), unread: [] }),
    root: async () => folder,
    leadsOut: async () => false,
  });
  await client.initialize({}, { workspaceFolders: [{ uri: folder, name: 'shop' }] });
  await client.open(settings, 'framewright-settings', 'framewright: settings/1\nignore: [archive]\n');
  const rules = () => client.found.get(settings);
  await vi.waitFor(() => expect(rules()).toEqual(['settings/ignore-matches-nothing']));
  uris = [job];
  await client.tell('workspace/didChangeWatchedFiles', { changes: [{ uri: job, type: 1 }] });
  await vi.waitFor(() => expect(rules()).toEqual([]));
  uris = [];
  await client.tell('workspace/didChangeWatchedFiles', { changes: [{ uri: job, type: 3 }] });
  await vi.waitFor(() => expect(rules()).toEqual(['settings/ignore-matches-nothing']));
});
