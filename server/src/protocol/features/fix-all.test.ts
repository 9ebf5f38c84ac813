import { describe, expect, it } from 'vitest';
import type { CodeAction } from 'vscode-languageserver';
import { fixedText } from '../../commands/fixed-text';
import { carChassis, jobOn, measured } from '../../testing/car';
import { linesOf } from '../../text/lines';
import { memoryFiles } from '../../workspace/testing/memory-files';
import { InProcessClient } from '../testing/in-process';

const folder = 'file:///shop/';
const sound = jobOn(
  measured('      rail-tip-lower.L: [3012, 448, 210]'),
  'order: W-1\ntechnician: rk',
).replace('- measure', '- { note: seen }\n  - measure');
const kind = 'source.fixAll.framewright';
const resolving = { textDocument: { codeAction: { resolveSupport: { properties: ['edit'] } } } };

/** What *Fix all that is safe* makes of an open file; null where it is not offered. */
async function fixedAll(name: string, text: string, able: object): Promise<string | null> {
  const client = new InProcessClient(memoryFiles({ [`${folder}car.chassis.yaml`]: carChassis }, folder));
  await client.initialize({ ...able, window: {} }, { rootUri: folder });
  const uri = folder + name;
  await client.open(uri, name.includes('chassis') ? 'framewright-chassis' : 'framewright-readings', text);
  const start = { line: 0, character: 0 };
  const [listed, ...more] = await client.request<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri },
    range: { start, end: start },
    context: { diagnostics: [], only: [kind] },
  });
  expect(more).toEqual([]);
  if (listed === undefined) return null;
  const whole =
    listed.edit === undefined ? await client.request<CodeAction>('codeAction/resolve', listed) : listed;
  const { changes = {}, documentChanges = [] } = whole.edit ?? {};
  const edits = changes[uri] ?? documentChanges.flatMap((each) => ('edits' in each ? each.edits : []));
  const lines = linesOf(text);
  let now = text;
  for (const edit of edits) {
    if (!('newText' in edit)) throw new Error('no edit of a text');
    const [from, to] = [edit.range.start, edit.range.end].map((at) => lines.offsetAt(at.line, at.character));
    now = now.slice(0, from) + edit.newText + now.slice(to);
  }
  return now;
}

const byCommand = async (name: string, text: string): Promise<string> => {
  const uri = folder + name;
  const files = memoryFiles({ [`${folder}car.chassis.yaml`]: carChassis, [uri]: text }, folder);
  const fixed = await fixedText(files, uri, false);
  return typeof fixed === 'string' ? fixed : fixed.text;
};

const job = 'w.readings.yaml';
const cases: [string, string, string, string | null][] = [
  [
    'keys that judge nothing',
    job,
    sound.replace('technician', 'technicain').replace('order', 'ordre'),
    sound,
  ],
  ['a key of a signature', job, `${sound}sing-off: { by: rk, date: 2026-03-05 }\n`, null],
  ['an uncertainty', job, sound.replace('uncertainty: 0.2', 'uncertanty: 0.4'), null],
  [
    'a limit of the reference',
    'car.chassis.yaml',
    carChassis.replace(/^parts:/m, 'tolernce: 9\nparts:'),
    null,
  ],
  ['one of two keys that mean the same', job, sound.replace('order: W-1', 'ordre: W-1\nodrer: W-2'), null],
];

describe.each([
  ['an editor that comes back for edits', resolving],
  ['one that does not', {}],
])('Fix all, in %s', (_, able) => {
  it.each(cases)('takes what `fix` takes: %s', async (_, name, text, expected) => {
    const now = await fixedAll(name, text, able);
    expect(now ?? text).toBe(expected ?? text);
    expect(await byCommand(name, text)).toBe(now ?? text);
  });

  it('is not offered where nothing is to be fixed', async () => {
    expect(await fixedAll(job, sound, able)).toBeNull();
  });
});
