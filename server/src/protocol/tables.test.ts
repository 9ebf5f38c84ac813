import type { FollowAnswer, LayoutAnswer, PasteAnswer, TableAnswer } from '@framewright/schemas/wire';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { sampleTexts } from '../commands/recorded.fixture';
import { memoryFiles } from '../workspace/testing/memory-files';
import { InProcessClient } from './testing/in-process';

const root = 'file:///shop';
const uri = `${root}/jobs/one.readings.yaml`;
const job = `framewright: readings/1
chassis: ../specs/marten-hatch.chassis.yaml
timeline:
  - measure: as received
    readings:
      
`;
const table = 'Name;X;Y;Z\nfloor front L;1593,4;370,1;716,5\nno point;1,5;2,5;3,5\n';
const bytes = Buffer.from(table).toString('base64');

let client: InProcessClient;
beforeEach(async () => {
  const texts = Object.entries({ ...sampleTexts, 'jobs/one.readings.yaml': job });
  const files = Object.fromEntries(texts.map(([name, text]) => [`${root}/${name}`, text]));
  client = new InProcessClient(memoryFiles(files, root));
  await client.initialize({}, { workspaceFolders: [{ uri: root, name: 'shop' }] });
  await client.open(uri, 'framewright-readings', job);
});
afterEach(() => client.request('shutdown'));

it('a paste is answered by its edits, and by nothing where it is no table', async () => {
  const at = { line: 5, character: 6 };
  const ask = (text: string) =>
    client.request<PasteAnswer>('framewright/pasteRows', { uri, range: { start: at, end: at }, text });
  expect(await ask(table)).toMatchObject({
    title: 'Insert rows of this table (1 point, 1 left as comments)',
    edits: [{ newText: expect.stringContaining('floor-front.L: [1593.4, 370.1, 716.5]') }],
  });
  expect(await ask('some words')).toBeNull();
});

it('a table is told as it is understood, with row and column of what is not; a layout of no name and a broken table are refused', async () => {
  const ask = (more: object) =>
    client.request<TableAnswer>('framewright/tableInto', {
      uri,
      begun: null,
      bytes,
      layout: null,
      byPlace: false,
      ...more,
    });
  expect(await ask({})).toMatchObject({
    said: 'as received: 1 point in 1 row, 0 distances',
    refused: [expect.stringMatching(/^row 3: no point is no point of the body/)],
    refusedCount: 1,
    guessed: ['columns: { point: Name, length: X, width: Y, height: Z }', 'decimal: comma'],
    text: null,
  });
  expect(await ask({ layout: 'arm' })).toEqual({ message: 'the settings have no layout arm' });
  expect(await ask({ bytes: '' })).toEqual({ message: 'the file is empty' });
  expect(await ask({ bytes: Buffer.from('PK\x03\x04').toString('base64') })).toHaveProperty('message');
  const begun = 'framewright: chassis/1\nvehicle: Marten\nunits: mm\npoints:\n';
  const body = Buffer.from('name,length,width,height\nlatch,3100,0,640\n').toString('base64');
  expect(await ask({ uri: `${root}/specs/new.chassis.yaml`, begun, bytes: body })).toMatchObject({
    text: expect.stringMatching(/points:\n {2}latch: \{ centre: \[3100, 0, 640\] \}/),
  });
});

it('a table is followed from a mark, and a layout is kept', async () => {
  const ask = (since: unknown) =>
    client.request<FollowAnswer>('framewright/followTable', { uri, bytes, layout: null, since });
  const first = await ask(null);
  expect(first).toMatchObject({ kind: 'followed', rows: 1, left: 1 });
  const now = await ask('now');
  expect(now).toMatchObject({ kind: 'followed', rows: 0, edits: [] });
  if (first.kind !== 'followed' || now.kind !== 'followed') throw new Error('not followed');
  expect(now.mark).toEqual(first.mark);
  expect(await ask({ ...now.mark, check: 1 })).toMatchObject({ kind: 'ended' });
  const kept = await client.request<LayoutAnswer>('framewright/keepLayout', {
    uri,
    name: 'arm',
    lines: ['columns: { point: Name, length: X, width: Y, height: Z }'],
  });
  expect(kept).toMatchObject({
    uri: `${root}/.framewright.yaml`,
    text: null,
    edits: [{ newText: expect.stringContaining('arm:') }],
  });
});
