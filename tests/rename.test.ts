// After a rename the command line says of the whole repository what it said before.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { check } from '../server/src/commands/check';
import { renameAt } from '../server/src/editor/navigate/rename';
import { outlineOf } from '../server/src/editor/show/outline';
import { applyEdits } from '../server/src/text/edits';
import { memoryFiles } from '../server/src/workspace/testing/memory-files';
import { Workspace } from '../server/src/workspace/workspace';
import { WorkspaceQuery } from '../server/src/workspace/workspace-query';

const samples = path.join(import.meta.dirname, '../samples');
const folder = 'file:///shop/';
const texts: Record<string, string> = Object.fromEntries(
  readdirSync(samples, { recursive: true, encoding: 'utf8' })
    .map((name) => name.replaceAll(path.sep, '/'))
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => [folder + name, readFileSync(path.join(samples, name), 'utf8')]),
);
const marten = `${folder}specs/marten-hatch.chassis.yaml`;
const teal = `${folder}specs/teal-estate.chassis.yaml`;

async function said(all: Record<string, string>): Promise<string[]> {
  const lines: string[] = [];
  const output = { print: (line: string) => lines.push(line), complain: (line: string) => lines.push(line) };
  const files = memoryFiles(all, folder);
  const targets = Object.keys(all).map((uri) => ({ uri, path: uri.slice(folder.length) }));
  const code = await check(
    files,
    targets,
    { open: false, summaries: true, verbose: true, coloured: false },
    output,
  );
  return [...lines, `exit ${code}`];
}

async function rename(all: Record<string, string>, uri: string, from: string, to: string) {
  const workspace = new Workspace(memoryFiles(all, folder));
  const analysis = await workspace.analysis(uri);
  if (!('findings' in analysis)) throw new Error(analysis.message);
  const key = new RegExp(`(?<=^ +)${from}(?=:)`, 'm');
  return renameAt(new WorkspaceQuery(workspace, [folder]), analysis, all[uri].search(key), to);
}

/** The files after a rename that is not to be refused. */
async function renamed(all: Record<string, string>, uri: string, from: string, to: string) {
  const found = await rename(all, uri, from, to);
  if ('refused' in found) throw new Error(found.refused);
  const after = { ...all };
  for (const file of found) after[file.uri] = applyEdits(all[file.uri], file.edits);
  return { after, files: found.length };
}

// Names of the same length, so that the marks under the lines stay where they are, and which sort alike, as lists do by name.
test.each([
  [marten, 'sill-hole-front', 'sill-hole-first'],
  [marten, 'strut-top', 'strut-cap'],
  [marten, 'front-rail', 'front-beam'],
  [marten, 'rear-rail', 'rear-rear'],
  [marten, 'tailgate-corner', 'tailgate-angler'],
  [marten, 'tailgate-buffer', 'tailgate-rubber'],
  [teal, 'rear-rail-tip-upper', 'rear-rail-nose-high'],
  [teal, 'load-floor', 'load-plate'],
])(
  'in %s: %s becomes %s',
  async (uri, from, to) => {
    expect(to).toHaveLength(from.length);
    const { after, files } = await renamed(texts, uri, from, to);
    const word = new RegExp(`(?<![a-z-])${to}(?![a-z-])`, 'g');
    const hash = /(sha256|seal1)-[0-9a-f]+/g;
    const now = (await said(after)).map((line) => line.replace(word, from).replace(hash, 'sha256'));
    expect(now).toEqual((await said(texts)).map((line) => line.replace(hash, 'sha256')));
    expect(files).toBeGreaterThan(1);
  },
  60_000,
);

test('a name that an error hides in a job is not left behind: the rename is refused', async () => {
  expect(await rename(texts, marten, 'rail-tip-lower', 'rail-end-lower')).toEqual({
    refused: expect.stringMatching(
      /^w-1210-typing-mistakes\.readings\.yaml, line \d+: rail-tip-lower is where the text has an error/,
    ),
  });
});

test.each([marten, teal])(
  'every name of %s there and back leaves every file as it was',
  async (uri) => {
    const { [`${folder}jobs/w-1210-typing-mistakes.readings.yaml`]: _, ...sound } = texts;
    const analysis = await new Workspace(memoryFiles(texts, folder)).analysis(uri);
    if (!('findings' in analysis)) throw new Error(analysis.message);
    const names = outlineOf(analysis).flatMap(({ children }) =>
      children.filter(({ kind }) => kind === 'point' || kind === 'part').map(({ name }) => name),
    );
    expect(names.length).toBeGreaterThan(5);
    for (const name of names) {
      const there = await renamed(sound, uri, name, `${name}-renamed`);
      expect(there.after).not.toEqual(sound);
      expect((await renamed(there.after, uri, `${name}-renamed`, name)).after).toEqual(sound);
    }
  },
  60_000,
);
