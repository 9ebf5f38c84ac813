// What helps while a file is typed, and what is shown in it, over the protocol: completion, formatting, colours, figures beside readings.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type CodeAction,
  type CodeLens,
  type CompletionItem,
  type InitializeResult,
  type InlayHint,
  InsertTextFormat,
  type Position,
  type Range,
  type SemanticTokens,
  type SemanticTokensDelta,
  type TextEdit,
} from 'vscode-languageserver-protocol';
import { applyEdits } from '../../server/src/text/edits';
import { linesOf } from '../../server/src/text/lines';
import { chassisPath, folderUri, jobPath, uriOf } from './client';
import { StartedClient } from './started-client';

const able = {
  textDocument: {
    completion: { completionItem: { snippetSupport: true, labelDetailsSupport: true } },
    codeAction: { codeActionLiteralSupport: {}, resolveSupport: { properties: ['edit'] } },
    publishDiagnostics: {},
  },
};
const job = { textDocument: { uri: uriOf(jobPath) } };
const chassis = { textDocument: { uri: uriOf(chassisPath) } };

const client = new StartedClient();
/** Of an editor that can do no more than any. */
const plain = new StartedClient();
let capabilities: InitializeResult['capabilities'];
let saved: string;
let text: string;
let version = 1;

/** The job as it is being typed; `$0` is taken out, and its position is the answer. */
async function type(marked: string): Promise<Position> {
  const offset = Math.max(0, marked.indexOf('$0'));
  text = marked.replace('$0', '');
  await client.replace(jobPath, ++version, text);
  return linesOf(text).positionAt(offset);
}

const offsetOf = ({ line, character }: Position): number => linesOf(text).offsetAt(line, character);
const covered = ({ start, end }: Range): string => text.slice(offsetOf(start), offsetOf(end));
const edited = (edits: readonly TextEdit[]): string =>
  applyEdits(
    text,
    edits.map(({ range, newText }) => ({
      start: offsetOf(range.start),
      end: offsetOf(range.end),
      text: newText,
    })),
  );

beforeAll(async () => {
  ({ capabilities } = await client.initialize({}, [folderUri], able));
  saved = await client.open(jobPath, 'framewright-readings');
  text = saved;
  await client.findings(jobPath, () => true);
});

afterAll(() => Promise.all([client.kill(), plain.kill()]));

describe('completion', () => {
  const typed = (): string => `${saved.trimEnd()}\n      `;
  const asked = async (marked: string): Promise<CompletionItem[]> =>
    client.request('textDocument/completion', { ...job, position: await type(marked) });

  test('offers the points that the measure lacks, nearest first, with places for the numbers', async () => {
    const items = await asked(
      `${typed()
        .replace('raill-', 'rail-')
        .replace(/ +floor-rear\.R.*\n/, '')}$0`,
    );
    const ordered = [...items].sort((a, b) => (a.sortText! < b.sortText! ? -1 : 1));
    expect(ordered.map(({ label }) => label)).toEqual(['floor-rear.R']);
    const [{ detail, labelDetails, insertTextFormat, textEdit }] = ordered;
    expect(labelDetails).toEqual({ description: 'control point' });
    expect(detail).toBe('[-350.0, 455.0, 90.0] · floor · control point');
    expect(insertTextFormat).toBe(InsertTextFormat.Snippet);
    expect(textEdit).toMatchObject({ newText: `floor-rear.R: [\${1:forward}, \${2:left}, \${3:up}]` });
  });

  test('gives the page of an item when it is looked at', async () => {
    const [item] = await asked(`${typed()}$0`);
    expect(item.documentation).toBeUndefined();
    const { documentation } = await client.request<CompletionItem>('completionItem/resolve', item);
    expect(JSON.stringify(documentation)).toContain(item.label);
    expect(documentation).toMatchObject({ kind: 'markdown' });
  });

  test('takes the place of the word at the cursor, in text that is broken too', async () => {
    const items = await asked(
      saved
        .replace('chassis: ../specs/marten.chassis.yaml', 'chassis: ../sp$0ecs [')
        .replace('[front', '{front'),
    );
    const [item] = items;
    expect(item).toMatchObject({ label: '../specs/marten.chassis.yaml', kind: 17 });
    if (!item.textEdit || !('range' in item.textEdit)) throw new Error('no edit of a range');
    expect(covered(item.textEdit.range)).toBe('../specs');
  });

  test('offers a whole measure at a dash, whose first line an editor can match with what is typed', async () => {
    const items = await asked(`${saved.trimEnd()}\n  - me$0`);
    expect(items[0]).toMatchObject({ label: 'measure with every point to read' });
    expect(items[0].filterText).toMatch(/^measure: /);
    expect(items[0].textEdit?.newText.split('\n')).toHaveLength(2 + 16);
  });

  test('gives plain text to an editor that fills nothing in', async () => {
    await plain.initialize({}, [folderUri], {});
    await plain.open(jobPath, 'framewright-readings', `${saved.trimEnd()}\n      `);
    const { line, character } = linesOf(`${saved.trimEnd()}\n      `).positionAt(1e9);
    const items = await plain.request<CompletionItem[]>('textDocument/completion', {
      ...job,
      position: { line, character },
    });
    expect(items.map(({ textEdit }) => textEdit?.newText)).toEqual(['rail-tip-upper.R: ']);
    expect(items[0].insertTextFormat).toBeUndefined();
    await plain.end();
    expect(plain.errors).toBe('');
  });
});

describe('formatting', () => {
  const options = { tabSize: 2, insertSpaces: true };

  test('aligns the whole file, and then has nothing to do', async () => {
    await type(saved.replaceAll(/, +/g, ',').replaceAll(/: +\[1/g, ': [1'));
    text = edited(await client.request('textDocument/formatting', { ...job, options }));
    expect(text).toContain(
      '      floor-front.L:     [1200.2,  420.1,  95.1]\n      floor-front.R:     [1199.8, -420.2,  94.8]\n',
    );
    await client.replace(jobPath, ++version, text);
    expect(await client.request('textDocument/formatting', { ...job, options })).toEqual([]);
  });

  test('aligns the lines of a range', async () => {
    const spoilt = saved.replaceAll(/, +/g, ',');
    const position = await type(spoilt.replace('floor-rear.L', '$0floor-rear.L'));
    const range = { start: position, end: position };
    const now = edited(await client.request('textDocument/rangeFormatting', { ...job, range, options }));
    const changed = now.split('\n').filter((line, i) => line !== spoilt.split('\n')[i]);
    expect(changed).toEqual(['      floor-rear.L:      [-350.2,  455.2,  90.1]']);
  });

  test('Enter behind a row begins the next one', async () => {
    expect(capabilities.documentOnTypeFormattingProvider?.firstTriggerCharacter).toBe('\n');
    const position = await type(
      saved
        .replace('raill-', 'rail-')
        .replace(/ +floor-rear\.R.*\n/, '')
        .trimEnd()
        .concat('\n      $0'),
    );
    const edits = await client.request<TextEdit[]>('textDocument/onTypeFormatting', {
      ...job,
      position,
      ch: '\n',
      options,
    });
    expect(edited(edits).split('\n').at(-1)).toBe('      floor-rear.R: ');
  });
});

describe('colours', () => {
  const legend = () => {
    const provider = capabilities.semanticTokensProvider;
    if (!provider) throw new Error('no semantic tokens');
    return provider.legend;
  };

  /** `text type.modifier`, from what is sent as differences. */
  function told(data: readonly number[]): string[] {
    const { tokenTypes, tokenModifiers } = legend();
    const found: string[] = [];
    let [line, character] = [0, 0];
    for (let i = 0; i < data.length; i += 5) {
      const [down, along, length, kind, bits] = data.slice(i, i + 5);
      character = down === 0 ? character + along : along;
      line += down;
      const start = { line, character };
      const words = tokenModifiers.filter((_, k) => bits & (1 << k));
      found.push(
        [
          `${covered({ start, end: { line, character: character + length } })} ${tokenTypes[kind]}`,
          ...words,
        ].join('.'),
      );
    }
    return found;
  }

  test('tell points by their verdict, and numbers', async () => {
    await type(saved);
    const { data } = await client.request<SemanticTokens>('textDocument/semanticTokens/full', job);
    expect(told(data)).toContain('rail-tip-upper.L point.outside');
    expect(told(data)).toContain('floor-front.L point.within.base');
    expect(told(data)).toContain('front-rail.R part');
    expect(told(data)).toContain('462.3 number');
  });

  test('of a range are those of its lines', async () => {
    const start = await type(saved.replace('floor-rear.L', '$0floor-rear.L'));
    const range = { start, end: { line: start.line, character: 60 } };
    const { data } = await client.request<SemanticTokens>('textDocument/semanticTokens/range', {
      ...job,
      range,
    });
    expect(told(data)).toEqual([
      'floor-rear.L point.within.base',
      '-350.2 number',
      '455.2 number',
      '90.1 number',
    ]);
  });

  test('after an edit come as a difference that makes the new of the old', async () => {
    await type(saved);
    const old = await client.request<SemanticTokens>('textDocument/semanticTokens/full', job);
    await type(saved.replace('[3011.9, 462.3, 351.6]', '[3011.9, 452.3, 351.6]'));
    const delta = await client.request<SemanticTokensDelta>('textDocument/semanticTokens/full/delta', {
      ...job,
      previousResultId: old.resultId,
    });
    const data = [...old.data];
    for (const { start, deleteCount, data: put } of [...delta.edits].reverse())
      data.splice(start, deleteCount, ...(put ?? []));
    expect(told(data)).toContain('rail-tip-upper.L point.within');
    const whole = await client.request<SemanticTokens>('textDocument/semanticTokens/full', job);
    expect(data).toEqual(whole.data);
    expect(delta.edits.flatMap((edit) => edit.data ?? []).length).toBeLessThan(20);
  });
});

describe('beside and above', () => {
  test('a reading stands how far off it is', async () => {
    await type(saved);
    const end = linesOf(text).positionAt(text.length);
    const hints = await client.request<InlayHint[]>('textDocument/inlayHint', {
      ...job,
      range: { start: { line: 0, character: 0 }, end },
    });
    expect(hints).toHaveLength(15);
    const row = text.split('\n').findIndex((line) => line.includes('rail-tip-upper.L'));
    const hint = hints.find(({ position }) => position.line === row)!;
    // no-break spaces: a wrapped row must not end between a figure and its word
    expect(hint.label).toMatch(/^!\u00A0(0\.\d\u00A0(forward|rearward),\u00A0)?10\.\d\u00A0outboard/);
    expect(covered({ start: { line: row, character: 0 }, end: hint.position })).toMatch(/351\.6\]$/);
    expect(JSON.stringify(hint.tooltip)).toContain('±');
  });

  test('a measure stands its base, counts and worst point, once it is in view', async () => {
    await type(saved);
    const lenses = await client.request<CodeLens[]>('textDocument/codeLens', job);
    expect(lenses.map(({ range }) => covered(range))).toEqual([
      'measure',
      'rail-root-lower.L',
      'rail-root-lower.R',
    ]);
    expect(lenses.map(({ command }) => command)).toEqual([undefined, undefined, undefined]);
    const [stage, part] = await Promise.all(
      lenses.map((lens) => client.request<CodeLens>('codeLens/resolve', lens)),
    );
    expect(stage.command?.title).toMatch(
      /^base of 8 points · .*1 outside.* · worst rail-tip-upper\.L: 10\.\d mm too far left \(outboard\), ±\d\.\d \(95 %\)$/,
    );
    expect(part.command?.title).toMatch(
      /^front-rail\.L: twist \d\.\d° ±\d\.\d° top leans left at 3012 mm · sweep /,
    );
  });

  test('a point of a chassis stands in how many jobs it was out', async () => {
    const sheet = await client.open(chassisPath, 'framewright-chassis');
    const lenses = await client.request<CodeLens[]>('textDocument/codeLens', chassis);
    expect(lenses).toHaveLength(8);
    const lens = lenses.find(({ range }) => sheet.split('\n')[range.start.line].includes('rail-tip-upper'))!;
    const { command } = await client.request<CodeLens>('codeLens/resolve', lens);
    // the other side is mistyped in the one job there is
    expect(command?.title).toBe('L outside in 1 of 1 job');
  });
});

describe('actions', () => {
  const offered = (range: Range) =>
    client.request<CodeAction[]>('textDocument/codeAction', { ...job, range, context: { diagnostics: [] } });

  test('are listed without what they do, which comes when one is chosen', async () => {
    const start = await type(saved.replace('measure:', '$0measure:'));
    const actions = await offered({ start, end: start });
    const action = actions.find(({ title }) => title === 'Insert next measure')!;
    expect(action.edit).toBeUndefined();
    const { edit } = await client.request<CodeAction>('codeAction/resolve', action);
    const now = edited(edit!.changes![uriOf(jobPath)]);
    expect(now.startsWith(text.trimEnd())).toBe(true);
    expect(now).toContain('\n  - measure: measured again\n');
    const plain = actions.filter(({ command }) => command === undefined);
    expect(plain.map((each) => each.edit)).toEqual(plain.map(() => undefined));
  });

  test('are no longer done to a text that has changed since', async () => {
    const start = await type(saved.replace('framewright:', '$0framewright:'));
    const action = (await offered({ start, end: start })).find(
      ({ title }) => title === 'Convert file to inch',
    )!;
    await type(`# changed\n${saved}`);
    expect((await client.request<CodeAction>('codeAction/resolve', action)).edit).toBeUndefined();
  });
});

test('nothing was said beside the protocol', async () => {
  await client.end();
  expect(client.errors).toBe('');
});
