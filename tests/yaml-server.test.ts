// The JSON Schemas in a general YAML server, which is told of them by the first line of a file alone.
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { peerModule, root, schemaFolder } from './bench/folders';
import { LanguageClient } from './bench/language-client';
import { installPeers } from './bench/peers';

const shop = mkdtempSync(path.join(tmpdir(), 'framewright-yaml-'));
let client: LanguageClient;

beforeAll(async () => {
  installPeers();
  cpSync(schemaFolder, path.join(shop, 'schemas'), { recursive: true });
  for (const folder of ['specs', 'jobs']) mkdirSync(path.join(shop, folder));
  client = await LanguageClient.started(
    {
      name: 'yaml-language-server',
      isOurs: false,
      arguments: [path.join(peerModule('yaml-language-server'), 'bin/yaml-language-server'), '--stdio'],
      text: 'yaml',
      languageId: 'yaml',
      initializationOptions: {},
      settings: { yaml: { validate: true, schemaStore: { enable: false } } },
    },
    shop,
  );
}, 300_000);
afterAll(async () => {
  await client.end();
  rmSync(shop, { recursive: true, force: true });
});

/** The line of the page, with another place of the schema. */
const page = readFileSync(path.join(root, 'schemas/README.md'), 'utf8');
const modeline = page.match(/^# yaml-language-server: \$schema=(\S+\/)readings\.schema\.json$/m);
const withSchema = (name: string, text: string): string =>
  `${modeline?.[0].replace(modeline[1], '../schemas/').replace('readings', name.split('.').at(-2) ?? '')}\n${text}`;

/** What the server says of a file; `name` from the shop's folder. */
async function said(name: string, text: string): Promise<string[]> {
  const { diagnostics } = await client.open(path.join(shop, name), withSchema(name, text));
  return diagnostics.map(({ message, range }) => `${range.start.line}: ${message}`);
}

const samples = ['specs', 'jobs'].flatMap((folder) =>
  readdirSync(path.join(root, 'samples', folder)).map((name) => `${folder}/${name}`),
);
const text = (name: string) => readFileSync(path.join(root, 'samples', name), 'utf8');
const good = samples.filter((name) => !name.includes('typing-mistakes'));

describe('a YAML server that reads the modeline', () => {
  it('has nothing against the samples', async () => {
    expect(good.length).toBeGreaterThan(12);
    const all: string[] = [];
    for (const name of good) all.push(...(await said(name, text(name))).map((each) => `${name} ${each}`));
    expect(all).toEqual([]);
  }, 120_000);

  it.each([
    ['specs/marten-hatch.chassis.yaml', 'vehicle:', 'vehicel:', 'vehicel'],
    ['jobs/w-1174-finished.readings.yaml', 'timeline:', 'timelime:', 'timelime'],
    ['jobs/w-1174-finished.readings.yaml', 'uncertainty:', 'uncertanty:', 'uncertanty'],
  ])('names a mistyped key of %s', async (name, right, wrong, word) => {
    const lines = text(name).split('\n');
    const at = lines.findIndex((line) => line.includes(right));
    // a file of its own: what was said of the sound one is not taken for the answer
    const found = await said(name.replace('/', `/${word}-`), text(name).replace(right, wrong));
    expect(found).toContainEqual(expect.stringMatching(`^${at + 1}: Property ${word} is not allowed`));
  });
});
