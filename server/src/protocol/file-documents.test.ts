import { describe, expect, it, vi } from 'vitest';
import { carChassis, jobOn, measured } from '../testing/car';
import { memoryFiles } from '../workspace/testing/memory-files';
import { isFile } from './file-documents';
import { InProcessClient } from './testing/in-process';

const root = 'file:///shop';
const name = 'w.readings.yaml';
const text = jobOn(measured('      rail-tip-lower.L: [3012, 468, 210]'));
const able = { workspace: { workspaceFolders: true } };

/** With every file of both places on the other side of the editor: only what is asked of a place decides. */
const started = async (): Promise<InProcessClient> => {
  const places = [root, 'git:/shop', 'memfs:/shop'];
  const all = places.flatMap((place) => [
    [`${place}/${name}`, text],
    [`${place}/car.chassis.yaml`, carChassis],
  ]);
  const client = new InProcessClient(memoryFiles(Object.fromEntries(all)));
  await client.initialize(able, { workspaceFolders: [{ uri: root, name: 'shop' }] });
  return client;
};
const outside = async (client: InProcessClient, uri: string): Promise<void> =>
  vi.waitFor(() => expect(client.found.get(uri)).toContain('reading/outside'), 10_000);

describe('the old side of a comparison, and a preview of edits', () => {
  const old = `git:/shop/${name}?%7B%22ref%22%3A%22HEAD%22%7D`;

  it.each(['git', 'conflictResolution', 'some-history', 'output', 'vscode-bulkeditpreview'])(
    'is not judged, nor is anything said of it: %s',
    async (scheme) => {
      const client = await started();
      const uri = old.replace('git', scheme);
      await client.open(uri, 'framewright-readings', text.replace('car.chassis', 'lost.chassis'));
      await client.open(`${root}/${name}`, 'framewright-readings', text);
      await outside(client, `${root}/${name}`);
      expect(client.found.has(uri)).toBe(false);
      const textDocument = { uri };
      const range = { start: { line: 0, character: 0 }, end: { line: 40, character: 0 } };
      for (const [method, params] of [
        ['textDocument/hover', { textDocument, position: { line: 20, character: 8 } }],
        ['textDocument/inlayHint', { textDocument, range }],
        ['textDocument/codeLens', { textDocument }],
        ['textDocument/prepareRename', { textDocument, position: { line: 20, character: 8 } }],
      ] as const)
        expect(await client.request(method, params), method).toBeNull();
      expect(await client.request('textDocument/semanticTokens/full', { textDocument })).toMatchObject({
        data: [],
      });
      expect(await client.request('framewright/outside', { uri })).toEqual({ places: [] });
      expect(await client.request('framewright/jobEntries', { uris: [uri] })).toMatchObject({
        entries: [{ kind: 'unreadable' }],
      });
      const references = await client.request<{ uri: string }[]>('textDocument/references', {
        textDocument: { uri: `${root}/${name}` },
        position: {
          line: text.split('\n').findIndex((line) => line.includes('rail-tip-lower.L')),
          character: 8,
        },
        context: { includeDeclaration: true },
      });
      expect(references.length).toBeGreaterThan(0);
      expect(references.map((each) => each.uri)).not.toContain(uri);
      await client.tell('textDocument/didChange', {
        textDocument: { uri, version: 2 },
        contentChanges: [{ text: 'framewright: [' }],
      });
      await client.tell('textDocument/didClose', { textDocument: { uri } });
      expect(await client.request('framewright/jobs', {})).toMatchObject({ left: 0 });
      expect(client.found.has(uri)).toBe(false);
    },
  );
});

it('a document becomes a file with its folder, and ceases to be one with it', async () => {
  const client = await started();
  const uri = `memfs:/shop/${name}`;
  await client.open(uri, 'framewright-readings', text);
  expect(await client.request('framewright/outside', { uri })).toEqual({ places: [] });
  const folder = { uri: 'memfs:/shop', name: 'memory' };
  await client.tell('workspace/didChangeWorkspaceFolders', { event: { added: [folder], removed: [] } });
  await outside(client, uri);
  await client.tell('workspace/didChangeWorkspaceFolders', { event: { added: [], removed: [folder] } });
  await vi.waitFor(() => expect(client.found.get(uri)).toEqual([]), 10_000);
  expect(await client.request('framewright/outside', { uri })).toEqual({ places: [] });
});

it('what was never saved may be a file', () => {
  expect(isFile('untitled:Untitled-1', [])).toBe(true);
  expect(isFile('FILE:///shop/w.readings.yaml', [])).toBe(true);
  expect(isFile('git:/shop/w.readings.yaml', [root])).toBe(false);
});
