import { describe, expect, it, vi } from 'vitest';
import { carChassis, jobOn, measured } from '../testing/car';
import { memoryFiles } from '../workspace/testing/memory-files';
import { revisionOf } from './earlier-revisions';
import { InProcessClient } from './testing/in-process';

const root = 'file:///shop';
const name = 'jobs/w.readings.yaml';
const text = jobOn(measured('      rail-tip-lower.L: [3012, 468, 210]')).replace('chassis: ', 'chassis: ../');
/** Then the point stood where it was read. */
const thenChassis = carChassis.replace('[3012, 448, 210]', '[3012, 468, 210]');

const gitUri = (path: string, ref: string, like = path): string =>
  `git:${path}?${encodeURIComponent(JSON.stringify({ path: like, ref }))}`;

/** What git has of each revision, as the editor answers it. */
async function started(texts: Readonly<Record<string, string>>): Promise<InProcessClient> {
  const client = new InProcessClient(
    memoryFiles({ [`${root}/car.chassis.yaml`]: carChassis, [`${root}/${name}`]: text }, `${root}/`),
  );
  client.answers['framewright/readFile'] = ({ uri }: { uri: string }) => ({ text: texts[uri] ?? null });
  await client.initialize(
    { workspace: { workspaceFolders: true } },
    {
      workspaceFolders: [{ uri: root, name: 'shop' }],
      initializationOptions: { readFilesThroughClient: 'virtual' },
    },
  );
  return client;
}

const row = text.split('\n').findIndex((line) => line.includes('rail-tip-lower.L'));
const all = { start: { line: 0, character: 0 }, end: { line: 60, character: 0 } };

async function shownOf(client: InProcessClient, uri: string) {
  const textDocument = { uri };
  const hints = await client.request<{ position: { line: number }; data: string }[] | null>(
    'textDocument/inlayHint',
    { textDocument, range: all },
  );
  const hover = await client.request<{ contents: { value: string } | string } | null>('textDocument/hover', {
    textDocument,
    position: { line: row, character: 8 },
  });
  const tokens = await client.request<{ data: number[] }>('textDocument/semanticTokens/full', {
    textDocument,
  });
  return {
    verdict: hints?.find(({ position }) => position.line === row)?.data ?? null,
    hover: JSON.stringify(hover?.contents ?? null),
    tokens: tokens.data.length,
  };
}

describe('a side of a comparison', () => {
  const old = gitUri(`/shop/${name}`, 'HEAD~1');

  it('is judged by the chassis of its own revision, and tells nothing as a finding', async () => {
    const client = await started({ [gitUri('/shop/car.chassis.yaml', 'HEAD~1')]: thenChassis });
    await client.open(`${root}/${name}`, 'framewright-readings', text);
    await client.open(old, 'framewright-readings', text);
    await vi.waitFor(() => expect(client.found.get(`${root}/${name}`)).toContain('reading/outside'), 10_000);
    const [now, then] = [await shownOf(client, `${root}/${name}`), await shownOf(client, old)];
    expect([now.verdict, then.verdict]).toEqual(['outside', 'within']);
    expect(then.hover).toContain('within');
    expect(then.tokens).toBeGreaterThan(0);
    expect(client.found.has(old)).toBe(false);
  });

  it.each([
    ['is not there', {}],
    ['is answered as empty', { [gitUri('/shop/car.chassis.yaml', 'HEAD~1')]: '' }],
    ['is there in another revision alone', { [gitUri('/shop/car.chassis.yaml', 'HEAD')]: carChassis }],
  ])('says so where its chassis %s', async (_, texts) => {
    const client = await started(texts);
    await client.open(old, 'framewright-readings', text);
    const { verdict, hover } = await shownOf(client, old);
    expect(verdict).toBeNull();
    expect(hover).toContain('The chassis file of this revision cannot be read');
    expect(client.found.has(old)).toBe(false);
  });

  it('is looked at anew with its next text', async () => {
    const client = await started({ [gitUri('/shop/car.chassis.yaml', 'HEAD~1')]: thenChassis });
    await client.open(old, 'framewright-readings', text);
    expect((await shownOf(client, old)).verdict).toBe('within');
    await client.tell('textDocument/didChange', {
      textDocument: { uri: old, version: 2 },
      contentChanges: [{ text: text.replace('3012, 468', '3012, 448') }],
    });
    expect((await shownOf(client, old)).verdict).toBe('outside');
  });
});

describe('the name of a revision', () => {
  it('leads to what lies beside it, in the address and in the query', () => {
    const uri = revisionOf(gitUri('/shop/jobs/w.readings.yaml', ''))?.uriOf(
      'file:///shop/a%20b.chassis.yaml',
    );
    expect(uri).toBe(
      `git:/shop/a%20b.chassis.yaml?${encodeURIComponent('{"path":"/shop/a b.chassis.yaml","ref":""}')}`,
    );
  });

  it('is written as the system writes paths, and keeps what else is asked', () => {
    const query = { path: 'c:\\shop\\w.readings.yaml', ref: '~', submoduleOf: 'c:\\' };
    const revision = revisionOf(
      `git:/c%3A/shop/w.readings.yaml.git?${encodeURIComponent(JSON.stringify(query))}`,
    );
    expect(revision?.fileUri).toBe('file:///c%3A/shop/w.readings.yaml');
    expect(decodeURIComponent(revision?.uriOf('file:///c%3A/shop/b.chassis.yaml') ?? '')).toBe(
      `git:/c:/shop/b.chassis.yaml?${JSON.stringify({ ...query, path: 'c:\\shop\\b.chassis.yaml' })}`,
    );
  });

  it.each([
    'file:///shop/w.readings.yaml',
    'git:/shop/w.readings.yaml',
    'git:/shop/w.readings.yaml?{"ref":"HEAD"}',
    'git:/shop/w.readings.yaml?[1',
    'git:/shop/w.readings.yaml?null',
    'git://host/shop/w.readings.yaml?{"path":"/a","ref":"HEAD"}',
  ])('is none: %s', (uri) => expect(revisionOf(uri)).toBeNull());
});
