// Finding one's way, and renaming, over the protocol: two folders of one repository, a branch shop of its own beside them, a document
// that was never saved, and files that stand in no folder of the editor.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type {
  DocumentHighlight,
  DocumentLink,
  DocumentSymbol,
  FoldingRange,
  Location,
  LocationLink,
  Range,
  SelectionRange,
  SymbolInformation,
  TextDocumentEdit,
  WorkspaceEdit,
} from 'vscode-languageserver-protocol';
import { twoBodies } from '../../server/src/testing/two-bodies';
import { applyEdits } from '../../server/src/text/edits';
import { linesOf } from '../../server/src/text/lines';
import { hasRule, positionOf, uriOf } from './client';
import { StartedClient } from './started-client';

const able = {
  general: { markdown: { parser: 'marked' } },
  workspace: { workspaceEdit: { documentChanges: true, changeAnnotationSupport: {} } },
  textDocument: {
    definition: { linkSupport: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    publishDiagnostics: {},
    foldingRange: { rangeLimit: 4 },
  },
};

const home = mkdtempSync(path.join(tmpdir(), 'framewright-navigation-'));
const job = 'shop/jobs/w-1.readings.yaml';
const hatch = 'shop/specs/hatch.chassis.yaml';
/** By name relative to the home. */
const texts: Record<string, string> = Object.fromEntries(
  ['shop', 'branch', 'elsewhere'].flatMap((shop) =>
    Object.entries(twoBodies).map(([name, text]) => [`${shop}/${name}`, text]),
  ),
);
const client = new StartedClient();
/** Of an editor that can do no more than any. */
const plain = new StartedClient();

const fileUri = (name: string): string => uriOf(path.join(home, name));
const nameOf = (uri: string): string => path.relative(home, decodeURIComponent(uri.slice('file://'.length)));
/** What is asked at the first letter of a piece of a file; `into` characters past it. */
const at = (name: string, piece: string, into = 0) => {
  const { line, character } = positionOf(texts[name], piece);
  return { textDocument: { uri: fileUri(name) }, position: { line, character: character + into } };
};

function covered(text: string, { start, end }: Range): string {
  const lines = linesOf(text);
  return text.slice(lines.offsetAt(start.line, start.character), lines.offsetAt(end.line, end.character));
}

/** The files that an edit changes, as they are afterwards. */
function edited(edit: WorkspaceEdit): Record<string, string> {
  const files = edit.documentChanges
    ? (edit.documentChanges as TextDocumentEdit[]).map(({ textDocument, edits }) => ({
        uri: textDocument.uri,
        edits,
      }))
    : Object.entries(edit.changes ?? {}).map(([uri, edits]) => ({ uri, edits }));
  return Object.fromEntries(
    files.map(({ uri, edits }) => {
      const text = texts[nameOf(uri)];
      const lines = linesOf(text);
      const plain = edits.map((each) => {
        if (!('newText' in each)) throw new Error('a snippet in a rename');
        const { start, end } = each.range;
        return {
          start: lines.offsetAt(start.line, start.character),
          end: lines.offsetAt(end.line, end.character),
          text: each.newText,
        };
      });
      return [nameOf(uri), applyEdits(text, plain)];
    }),
  );
}

beforeAll(async () => {
  for (const [name, text] of Object.entries(texts)) {
    mkdirSync(path.dirname(path.join(home, name)), { recursive: true });
    writeFileSync(path.join(home, name), text);
  }
  mkdirSync(path.join(home, 'shop/.git'));
  const folders = ['shop/jobs', 'shop/specs', 'branch'].map(fileUri);
  await client.initialize({ rulePages: 'framewright-rule:/' }, folders, able);
  await client.open(path.join(home, job), 'framewright-readings');
  await client.findings(path.join(home, job), () => true);
});

afterAll(async () => {
  await Promise.all([client.kill(), plain.kill()]);
  rmSync(home, { recursive: true, force: true });
});

describe('definition', () => {
  test('leads from a reading to its point in another folder of the repository', async () => {
    const [link] = await client.request<LocationLink[]>('textDocument/definition', at(job, 'tip.R'));
    expect(link.targetUri).toBe(fileUri(hatch));
    expect(covered(texts[hatch], link.targetSelectionRange)).toBe('tip');
    expect(covered(texts[job], link.originSelectionRange!)).toBe('tip.R');
  });

  test('leads from the path to the chassis file', async () => {
    const [link] = await client.request<LocationLink[]>('textDocument/definition', at(job, '../specs', 3));
    expect(link.targetUri).toBe(fileUri(hatch));
  });

  test('leads nowhere from a word', async () =>
    expect(await client.request('textDocument/definition', at(job, 'as received'))).toBeNull());
});

test('references: in all jobs and variants of the body, not in the branch', async () => {
  const ask = (includeDeclaration: boolean) =>
    client.request<Location[]>('textDocument/references', {
      ...at(job, 'tip.R'),
      context: { includeDeclaration },
    });
  const found = (await ask(true)).map(
    ({ uri, range }) => `${nameOf(uri)}: ${covered(texts[nameOf(uri)], range)}`,
  );
  expect(found).toEqual([
    `${job}: tip`,
    `${job}: tip.R`,
    `${hatch}: tip`,
    `${hatch}: tip`,
    'shop/specs/van.chassis.yaml: tip',
  ]);
  expect(await ask(false)).toHaveLength(3);
});

test('highlights: where this file names it', async () => {
  const found = await client.request<DocumentHighlight[]>(
    'textDocument/documentHighlight',
    at(job, 'rail.L'),
  );
  expect(found.map(({ range }) => covered(texts[job], range))).toEqual([
    'rail.L',
    'rail.L',
    'rail.L',
    'rail.L',
  ]);
});

describe('rename', () => {
  test('is prepared with the name alone, and refused where no such point is', async () => {
    const prepared = await client.request<{ range: Range; placeholder: string }>(
      'textDocument/prepareRename',
      at(job, 'tip.R'),
    );
    expect([prepared.placeholder, covered(texts[job], prepared.range)]).toEqual(['tip', 'tip']);
    expect(await client.request('textDocument/prepareRename', at(job, 'as received'))).toBeNull();
  });

  test('changes both folders of the repository and nothing else, for the version that was looked at', async () => {
    const edit = await client.request<WorkspaceEdit>('textDocument/rename', {
      ...at(job, 'tip.R'),
      newName: 'nose',
    });
    const after = edited(edit);
    expect(Object.keys(after).sort()).toEqual([
      job,
      'shop/jobs/w-2.readings.yaml',
      hatch,
      'shop/specs/van.chassis.yaml',
    ]);
    expect(after[job]).toBe(texts[job].replaceAll('tip.', 'nose.').replace('[tip]', '[nose]'));
    const versions = (edit.documentChanges as TextDocumentEdit[]).map(
      ({ textDocument }) => textDocument.version,
    );
    expect(versions).toEqual([1, null, null, null]);
    expect(edit.changeAnnotations).toBeUndefined();
  });

  test('is refused with the reason where it would collide', async () => {
    const asked = client.request('textDocument/rename', { ...at(job, 'tip.R'), newName: 'latch' });
    await expect(asked).rejects.toThrow('there is a point latch already: hatch.chassis.yaml, line 9');
  });
});

test('file rename: paths follow a chassis file and a folder of jobs', async () => {
  const files = [{ oldUri: fileUri(hatch), newUri: fileUri('shop/specs/five-door.chassis.yaml') }];
  const after = edited(await client.request<WorkspaceEdit>('workspace/willRenameFiles', { files }));
  expect(after).toEqual({
    [job]: texts[job].replace('hatch.chassis', 'five-door.chassis'),
    'shop/specs/van.chassis.yaml': texts['shop/specs/van.chassis.yaml'].replace(
      'hatch.chassis',
      'five-door.chassis',
    ),
  });
  const folder = [{ oldUri: fileUri('shop/jobs'), newUri: fileUri('shop/archive/2026') }];
  const moved = edited(await client.request<WorkspaceEdit>('workspace/willRenameFiles', { files: folder }));
  expect(Object.keys(moved)).toHaveLength(3);
  expect(moved[job]).toContain('chassis: ../../specs/hatch.chassis.yaml');
});

test('outline: stages with their readings, ranges nested', async () => {
  const symbols = await client.request<DocumentSymbol[]>('textDocument/documentSymbol', {
    textDocument: { uri: fileUri(job) },
  });
  expect(symbols.map(({ name }) => name)).toEqual(['as received', 'tip to the left', 'release', 'sign-off']);
  expect(symbols[0].children?.map(({ name }) => name)).toEqual(['tip.L', 'tip.R']);
  expect(covered(texts[job], symbols[0].range)).toContain(covered(texts[job], symbols[0].children![1].range));
});

test('workspace symbols: every job and body of the folders, by order number and vehicle', async () => {
  const found = await client.request<SymbolInformation[]>('workspace/symbol', { query: 'w-2' });
  expect(found.map(({ name, location }) => [name, nameOf(location.uri)]).sort()).toEqual([
    ['W-2', 'branch/jobs/w-2.readings.yaml'],
    ['W-2', 'shop/jobs/w-2.readings.yaml'],
  ]);
});

test('folding, no more than the editor asks for', async () => {
  const folds = await client.request<FoldingRange[]>('textDocument/foldingRange', {
    textDocument: { uri: fileUri(job) },
  });
  expect(folds.map(({ startLine, endLine }) => [startLine, endLine])).toEqual([
    [6, 20],
    [7, 14],
    [8, 10],
    [11, 12],
  ]);
});

test('selection ranges grow from the name', async () => {
  const { textDocument, position } = at(job, 'tip.R', 1);
  const [selection] = await client.request<SelectionRange[]>('textDocument/selectionRange', {
    textDocument,
    positions: [position],
  });
  expect(covered(texts[job], selection.range)).toBe('tip');
  expect(covered(texts[job], selection.parent!.range)).toBe('tip.R');
});

test('document links: the chassis file, and the page of a rule', async () => {
  const name = 'branch/.framewright.yaml';
  texts[name] = 'framewright: settings/1\nrules:\n  reading/coverage: off\n';
  await client.openDocument(fileUri(name), 'framewright-settings', texts[name]);
  const links = async (file: string) =>
    (
      await client.request<DocumentLink[]>('textDocument/documentLink', {
        textDocument: { uri: fileUri(file) },
      })
    ).map(({ range, target }) => [covered(texts[file], range), target]);
  expect(await links(job)).toEqual([['../specs/hatch.chassis.yaml', fileUri(hatch)]]);
  expect(await links(name)).toEqual([['reading/coverage', 'framewright-rule:/reading/coverage.md']]);
});

describe('a document that was never saved', () => {
  const uri = 'untitled:Untitled-1';
  const textDocument = { uri };

  test('has its own points: outline, references and rename stay in it', async () => {
    const text = twoBodies['specs/hatch.chassis.yaml'];
    await client.openDocument(uri, 'framewright-chassis', text);
    const symbols = await client.request<DocumentSymbol[]>('textDocument/documentSymbol', { textDocument });
    expect(symbols.map(({ name }) => name)).toEqual(['parts', 'points', 'spans']);
    const question = { textDocument, position: positionOf(text, 'latch:') };
    const context = { includeDeclaration: true };
    const found = await client.request<Location[]>('textDocument/references', { ...question, context });
    expect(found.map((each) => each.uri)).toEqual([uri, uri]);
    const edit = await client.request<WorkspaceEdit>('textDocument/rename', { ...question, newName: 'lock' });
    expect((edit.documentChanges as TextDocumentEdit[]).map((each) => each.textDocument.uri)).toEqual([uri]);
  });

  test('leads to no file, and says that a path needs it saved', async () => {
    const second = 'untitled:Untitled-2';
    const text = twoBodies['jobs/w-1.readings.yaml'];
    await client.openDocument(second, 'framewright-readings', text);
    const all = await client.findingsOf(second, hasRule('name/file-not-found'));
    expect(all.find(({ code }) => code === 'name/file-not-found')?.message).toContain('save this file first');
    const question = { textDocument: { uri: second }, position: positionOf(text, '../specs') };
    expect(await client.request('textDocument/definition', question)).toBeNull();
    expect(await client.request('textDocument/documentLink', { textDocument: { uri: second } })).toEqual([]);
  });
});

test('files in no folder of the editor: definition reaches the chassis file; a rename could not reach all jobs', async () => {
  const name = 'elsewhere/jobs/w-1.readings.yaml';
  await client.open(path.join(home, name), 'framewright-readings');
  const [link] = await client.request<LocationLink[]>('textDocument/definition', at(name, 'tip.R'));
  expect(nameOf(link.targetUri)).toBe('elsewhere/specs/hatch.chassis.yaml');
  const rename = client.request('textDocument/rename', { ...at(name, 'tip.R'), newName: 'nose' });
  await expect(rename).rejects.toThrow('hatch.chassis.yaml is in no open folder');
});

test('an editor that can less gets flat symbols, plain locations and plain changes', async () => {
  await plain.initialize({}, ['shop/jobs', 'shop/specs'].map(fileUri), {});
  await plain.open(path.join(home, job), 'framewright-readings');
  const symbols = await plain.request<SymbolInformation[]>('textDocument/documentSymbol', {
    textDocument: { uri: fileUri(job) },
  });
  expect(symbols.map(({ name, containerName }) => [name, containerName])).toContainEqual([
    'tip.L',
    'as received',
  ]);
  const [found] = await plain.request<Location[]>('textDocument/definition', at(job, 'tip.R'));
  expect([found.uri, covered(texts[hatch], found.range)]).toEqual([fileUri(hatch), 'tip']);
  const edit = await plain.request<WorkspaceEdit>('textDocument/rename', {
    ...at(job, 'rail.L'),
    newName: 'beam',
  });
  expect(Object.keys(edit)).toEqual(['changes']);
  expect(edited(edit)[job]).toBe(texts[job].replaceAll('rail.L', 'beam.L'));
  await plain.end();
  expect(plain.errors).toBe('');
});

test('nothing was written to a file, nor said beside the protocol', async () => {
  for (const [name, text] of Object.entries(texts))
    if (!name.endsWith('.framewright.yaml')) expect(readFileSync(path.join(home, name), 'utf8')).toBe(text);
  await client.end();
  expect(client.errors).toBe('');
});
