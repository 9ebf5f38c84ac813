import { describe, expect, it, vi } from 'vitest';
import { carChassis, jobOn, measured } from '../testing/car';
import { memoryFiles } from '../workspace/testing/memory-files';
import { InProcessClient } from './testing/in-process';

const root = 'file:///shop';
const uriOf = (name: string): string => `${root}/${name}`;
const openUri = uriOf('open.readings.yaml');
const closedUri = uriOf('closed.readings.yaml');
const bodyUri = uriOf('car.chassis.yaml');
const job = jobOn(measured('      rail-tip-lower.L: [3012, 468, 210]'));
const shop = () => ({ [openUri]: job, [closedUri]: job, [bodyUri]: carChassis });

const yes = { dynamicRegistration: true };
/** What a client may be able to do, each by itself. */
const abilities: Record<string, object> = {
  'workspace folders': { workspace: { workspaceFolders: true } },
  configuration: { workspace: { configuration: true } },
  'registered configuration': { workspace: { didChangeConfiguration: yes } },
  'registered watching': { workspace: { didChangeWatchedFiles: yes } },
  'file operations': { workspace: { fileOperations: { didDelete: true, didRename: true, ...yes } } },
  'versioned edits': { workspace: { workspaceEdit: { documentChanges: true } } },
  'asking again for hints': { workspace: { inlayHint: { refreshSupport: true } } },
  'asking again for colours': { workspace: { semanticTokens: { refreshSupport: true } } },
  'asking again for lenses': { workspace: { codeLens: { refreshSupport: true } } },
  progress: { window: { workDoneProgress: true } },
  'literal actions': { textDocument: { codeAction: { codeActionLiteralSupport: {}, dataSupport: true } } },
  'resolved edits': { textDocument: { codeAction: { resolveSupport: { properties: ['edit'] } } } },
  'links of definitions': { textDocument: { definition: { linkSupport: true } } },
  'nested symbols': { textDocument: { documentSymbol: { hierarchicalDocumentSymbolSupport: true } } },
  snippets: { textDocument: { completion: { completionItem: { snippetSupport: true } } } },
  markdown: { general: { markdown: { parser: 'any' } } },
};

type Nested = Record<string, unknown>;
const merged = (a: Nested, b: Nested): Nested => {
  const result = { ...a };
  for (const [key, value] of Object.entries(b))
    result[key] =
      typeof value === 'object' && typeof result[key] === 'object'
        ? merged(result[key] as Nested, value as Nested)
        : value;
  return result;
};
const all = Object.values(abilities).reduce<Nested>((sum, each) => merged(sum, each as Nested), {});

const without = (names: string): Nested =>
  Object.entries(abilities)
    .filter(([name]) => name !== names)
    .reduce<Nested>((sum, [, each]) => merged(sum, each as Nested), {});

/** Of the server's requests, which a client has to say that it can answer. */
function answersOf(client: InProcessClient, able: Nested, severity: object): void {
  const workspace = (able.workspace ?? {}) as Record<string, { [name: string]: unknown } | undefined>;
  const { answers } = client;
  const registered = new Set<string>();
  if (workspace.didChangeConfiguration) registered.add('workspace/didChangeConfiguration');
  if (workspace.didChangeWatchedFiles) registered.add('workspace/didChangeWatchedFiles');
  if (registered.size > 0)
    answers['client/registerCapability'] = ({ registrations }: { registrations: { method: string }[] }) => {
      for (const { method } of registrations) if (!registered.has(method)) throw new Error(`not ${method}`);
      return null;
    };
  if (workspace.configuration)
    answers['workspace/configuration'] = ({ items }: { items: unknown[] }) => items.map(() => ({ severity }));
  for (const name of ['inlayHint', 'semanticTokens', 'codeLens'])
    if (workspace[name]?.refreshSupport) answers[`workspace/${name}/refresh`] = () => null;
  if ((able.window as Nested | undefined)?.workDoneProgress)
    answers['window/workDoneProgress/create'] = () => null;
}

const start = { line: 0, character: 0 };
const range = { start, end: { line: 40, character: 0 } };

/** Every request that a client may send. */
const requests = (uri: string): [string, object][] => {
  const textDocument = { uri };
  const position = { line: 20, character: 8 };
  const options = { tabSize: 2, insertSpaces: true };
  return [
    ['textDocument/hover', { textDocument, position }],
    ['textDocument/completion', { textDocument, position }],
    ['textDocument/definition', { textDocument, position }],
    ['textDocument/references', { textDocument, position, context: { includeDeclaration: true } }],
    ['textDocument/documentHighlight', { textDocument, position }],
    ['textDocument/documentSymbol', { textDocument }],
    ['textDocument/codeAction', { textDocument, range, context: { diagnostics: [] } }],
    ['textDocument/codeLens', { textDocument }],
    ['textDocument/documentLink', { textDocument }],
    ['textDocument/formatting', { textDocument, options }],
    ['textDocument/rangeFormatting', { textDocument, range, options }],
    ['textDocument/onTypeFormatting', { textDocument, position, ch: '\n', options }],
    ['textDocument/prepareRename', { textDocument, position }],
    ['textDocument/foldingRange', { textDocument }],
    ['textDocument/selectionRange', { textDocument, positions: [position] }],
    ['textDocument/semanticTokens/full', { textDocument }],
    ['textDocument/semanticTokens/range', { textDocument, range }],
    ['textDocument/inlayHint', { textDocument, range }],
    ['textDocument/willSaveWaitUntil', { textDocument, reason: 1 }],
    ['workspace/symbol', { query: '' }],
    ['workspace/willRenameFiles', { files: [{ oldUri: uri, newUri: uriOf('new.readings.yaml') }] }],
    ['framewright/jobs', {}],
    ['framewright/jobEntries', { uris: [uri] }],
    ['framewright/outside', { uri }],
    ['framewright/chassisPoints', { uri: bodyUri }],
    ['framewright/report', { uri }],
    ['framewright/referencePoints', { uri }],
    ['framewright/rulePage', { rule: 'reading/outside' }],
    [
      'framewright/drawing',
      {
        uri,
        view: 'v',
        known: null,
        section: 'drawing',
        stage: null,
        over: null,
        selected: null,
        cursor: null,
        cursorStage: null,
        width: 600,
      },
    ],
    ['framewright/drawingPlace', { uri, stage: null, point: 'latch' }],
  ];
};

const cases: [string, Nested][] = [
  ['nothing', {}],
  ...Object.entries(abilities).map(([name, able]): [string, Nested] => [`${name} alone`, able as Nested]),
  ...Object.keys(abilities).map((name): [string, Nested] => [`all but ${name}`, without(name)]),
  ['all', all],
];

describe.each(cases)('a client that can do %s', (_, able) => {
  it('has its files judged, its settings heeded and every request answered', async () => {
    const files = shop();
    const client = new InProcessClient(memoryFiles(files, root));
    const severity = { 'reading/outside': 'off' };
    answersOf(client, able, severity);
    const folders = (able.workspace as Nested)?.workspaceFolders
      ? { workspaceFolders: [{ uri: root, name: 'shop' }] }
      : { rootUri: root };
    await client.initialize(able, folders);
    await client.open(openUri, 'framewright-readings', job);
    // what it is not asked for it tells by itself
    if (!(able.workspace as Nested)?.configuration)
      await client.tell('workspace/didChangeConfiguration', { settings: { framewright: { severity } } });
    for (const [method, params] of requests(openUri))
      await expect(client.request(method, params), method).resolves.toBeDefined();
    const { entries } = await client.request<{ entries: { uri: string }[] }>('framewright/jobs', {});
    expect(entries.map(({ uri }) => uri)).toEqual([bodyUri, closedUri, openUri]);
    for (const uri of [openUri, closedUri])
      await vi.waitFor(() => {
        expect(client.found.get(uri)).toContain('reading/coverage');
        expect(client.found.get(uri)).not.toContain('reading/outside');
      }, 10_000);
    // a change on the disk, of which every client may tell
    files[closedUri] = 'framewright: readings/1\n';
    await client.tell('workspace/didChangeWatchedFiles', { changes: [{ uri: closedUri, type: 2 }] });
    await vi.waitFor(() => expect(client.found.get(closedUri)).toContain('text/missing-key'), 10_000);
    expect(client.asked.map(({ method }) => method).filter((method) => !client.answers[method])).toEqual([]);
    expect(client.logged).toEqual([]);
    await client.request('shutdown');
  }, 30_000);
});
