// `format` writes what the language server answers to an editor, byte for byte: the samples, and what may become of them.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { TextEdit } from 'vscode-languageserver';
import { formatFiles } from '../../server/src/commands/format-files';
import { InProcessClient } from '../../server/src/protocol/testing/in-process';
import { applyEdits } from '../../server/src/text/edits';
import { linesOf } from '../../server/src/text/lines';
import { parseText } from '../../server/src/text/yaml/parse';
import { memoryFiles } from '../../server/src/workspace/testing/memory-files';
import { type SeededRandom, seededRandom } from '../published/seeded-random';
import { mutated } from './mutations';
import { all, folder, samples } from './samples';

/** What the command makes of a text; null where it leaves it alone. */
async function formatted(name: string, text: string): Promise<string | null> {
  const uri = folder + name;
  let written: string | null = text;
  const code = await formatFiles(memoryFiles({ [uri]: text }, folder), [{ uri, path: name }], {
    print: () => {},
    complain: () => {},
    check: false,
    write: (_, made) => {
      written = made;
      return null;
    },
  });
  return code === 0 ? written : null;
}

let client: InProcessClient;
beforeAll(async () => {
  client = new InProcessClient(memoryFiles({}, folder));
  await client.connection.sendRequest('initialize', { processId: null, rootUri: null, capabilities: {} });
  await client.connection.sendNotification('initialized', {});
});
afterAll(() => client.connection.dispose());

/** What an editor makes of its document. */
async function formattedInEditor(name: string, text: string): Promise<string> {
  const uri = folder + name;
  const document = { uri, languageId: 'yaml', version: 1, text };
  await client.connection.sendNotification('textDocument/didOpen', { textDocument: document });
  const edits: TextEdit[] = await client.connection.sendRequest('textDocument/formatting', {
    textDocument: { uri },
    options: { tabSize: 2, insertSpaces: true },
  });
  await client.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  const lines = linesOf(text);
  return applyEdits(
    text,
    edits.map(({ range: { start, end }, newText }) => ({
      start: lines.offsetAt(start.line, start.character),
      end: lines.offsetAt(end.line, end.character),
      text: newText,
    })),
  );
}

/** Blanks that nobody lined up, and line ends of another system now and then. */
function crooked(text: string, random: SeededRandom): string {
  const some = text.replace(/(?<=[[,:]) +(?=\S)|(?=,)|(?=\n)/g, (blanks) =>
    random.uniform(0, 1) < 0.1 ? `${blanks}  ` : blanks,
  );
  return random.uniform(0, 1) < 0.2 ? some.replaceAll('\n', '\r\n') : some;
}

test.each(all)('%s', async (name) => {
  const whole = samples[name];
  const isBroken = parseText(whole).problems.length > 0;
  expect(await formatted(name, whole)).toBe(isBroken ? null : await formattedInEditor(name, whole));
});

describe('500 copies with something done to them', () => {
  test.each(Array.from({ length: 10 }, (_, i) => i * 50))('from %i on', async (first) => {
    let changed = 0;
    for (let i = first; i < first + 50; i++) {
      const name = all[i % all.length];
      const random = seededRandom(4001 * i + 5);
      const text = crooked(i % 2 === 0 ? samples[name] : mutated(samples[name], random).text, random);
      const made = await formatted(name, text);
      const inEditor = await formattedInEditor(name, text);
      const isBroken = parseText(text).problems.length > 0;
      expect(made, `copy ${i} of ${name}`).toBe(isBroken ? null : inEditor);
      if (made !== null && made !== text) changed++;
    }
    expect(changed).toBeGreaterThan(10);
  });
});
