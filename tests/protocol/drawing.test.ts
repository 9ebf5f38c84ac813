// The drawing over the wire: the whole of it at first, then what changed, and word of every change of what it was made from.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { DrawingAnswer } from '@framewright/schemas/wire';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Range } from 'vscode-languageserver-protocol';
import { carChassis, jobOn, measured } from '../../server/src/testing/car';
import { positionOf, uriOf } from './client';
import { ShopServer } from './shop-server';

const folder = mkdtempSync(path.join(tmpdir(), 'framewright-drawing-'));
const job = path.join(folder, 'w-1.readings.yaml');
const chassis = path.join(folder, 'car.chassis.yaml');
const text = jobOn(measured('      rail-tip-upper.L: [3003, 437.8, 352]'));
let server: ShopServer;

beforeAll(async () => {
  mkdirSync(path.join(folder, '.git'));
  writeFileSync(chassis, carChassis);
  writeFileSync(job, text);
  server = await ShopServer.started(folder, { checkWholeWorkspace: false });
  await server.open(job);
});
afterAll(async () => {
  await server.end();
  rmSync(folder, { recursive: true, force: true });
});

const asked = (known: number | null): Promise<DrawingAnswer> =>
  server.connection.sendRequest('framewright/drawing', {
    uri: uriOf(job),
    view: 'drawing',
    known,
    section: 'drawing',
    stage: null,
    over: null,
    selected: null,
    cursor: null,
    cursorStage: null,
    width: 640,
  });
const size = ({ sheets }: DrawingAnswer): number => JSON.stringify(sheets).length;
const timesTold = (): number =>
  server.told.filter(
    ({ method, params }) => method === 'framewright/drawingChanged' && params.uri === uriOf(job),
  ).length;
const toldOnce = async (change: () => Promise<unknown>): Promise<void> => {
  const before = timesTold();
  await change();
  await server.until(() => timesTold() > before, 'that the drawing changed');
};

test('a point leads to its reading, one without to its reference, and an unknown one nowhere', async () => {
  const place = (point: string) =>
    server.connection.sendRequest<{ uri: string; range: Range } | null>('framewright/drawingPlace', {
      uri: uriOf(job),
      stage: null,
      point,
    });
  expect(await place('rail-tip-upper.L')).toMatchObject({
    uri: uriOf(job),
    range: { start: positionOf(text, 'rail-tip-upper.L') },
  });
  expect(await place('latch')).toMatchObject({
    uri: uriOf(chassis),
    range: { start: positionOf(carChassis, 'latch') },
  });
  expect(await place('lacth')).toBeNull();
});

test('is whole at first, then a patch, and whole again for a view that shows something else', async () => {
  const whole = await asked(null);
  expect(whole.styles).toContain('{');
  expect(JSON.stringify(whole.sheets)).toContain('rail-tip-upper.L');
  await toldOnce(() => server.replace(job, 2, text.replace('437.8', '438.8')));
  const patch = await asked(whole.revision);
  expect(patch.revision).toBeGreaterThan(whole.revision);
  expect(patch.styles).toBeNull();
  expect(size(patch)).toBeGreaterThan(2);
  expect(size(patch)).toBeLessThan(size(whole) / 2);
  expect(size(await asked(whole.revision + 1000))).toBeGreaterThan(0.9 * size(whole));
});

test('is told to have changed when an edit is thrown away, and when the chassis of a closed job changes', async () => {
  await toldOnce(() => server.close(job));
  expect(JSON.stringify((await asked(null)).sheets)).toContain('14.2');
  await toldOnce(async () => {
    writeFileSync(chassis, carChassis.replace('[3012, 452, 352]', '[3012, 450, 352]'));
    await server.changed([chassis], 2);
  });
  expect(JSON.stringify((await asked(null)).sheets)).toContain('12.2');
});
