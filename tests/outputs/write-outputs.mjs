#!/usr/bin/env node
// Writes what the built program says of the samples into a folder, one file an output: findings, figures, plans, records and the
// diagnostics that the language server publishes. Run it before and after a change that must not be seen, and compare:
//
//   npm run build && npm run outputs -- tests/output/before
//   …
//   npm run build && npm run outputs -- tests/output/after && diff -r tests/output/before tests/output/after
import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  createMessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node';

const root = path.join(import.meta.dirname, '../..');
const program = path.join(root, 'server/bin/framewright.js');
if (!process.argv[2]) throw new Error('Say which folder the outputs go to.');
const target = path.resolve(process.argv[2]);
const jobsFolder = 'samples/jobs';
const jobs = readdirSync(path.join(root, jobsFolder)).filter((name) => name.endsWith('.readings.yaml'));
const files = [...jobs.map((name) => `${jobsFolder}/${name}`), ...chassisFiles()];

rmSync(target, { recursive: true, force: true });
mkdirSync(target, { recursive: true });
const write = (name, text) => writeFileSync(path.join(target, name), text);

write('check.txt', said('check', '--verbose', '--summaries', 'samples'));
for (const name of jobs) {
  const [file, short] = [`${jobsFolder}/${name}`, name.replace('.readings.yaml', '')];
  write(`${short}.check.txt`, said('check', '--verbose', '--summaries', file));
  write(`${short}.inspect.json`, said('inspect', '--json', file));
  write(`${short}.plan.txt`, said('plan', file));
  execFileSync(process.execPath, [program, 'report', file, '-o', path.join(target, `${short}.html`)], {
    cwd: root,
  });
}
await writeDiagnostics();

function chassisFiles() {
  return readdirSync(path.join(root, 'samples/specs')).map((name) => `samples/specs/${name}`);
}

/** All that a command prints, and its exit code. */
function said(...args) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
    cwd: root,
    encoding: 'utf8',
  });
  return `${stdout}${stderr}exit ${status}\n`;
}

async function writeDiagnostics() {
  const server = spawn(process.execPath, [program, 'lsp', '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const ended = new Promise((resolve) => server.once('exit', resolve));
  const connection = createMessageConnection(
    new StreamMessageReader(server.stdout),
    new StreamMessageWriter(server.stdin),
  );
  const published = new Map();
  let look = () => {};
  connection.onNotification('textDocument/publishDiagnostics', ({ uri, version, diagnostics }) => {
    if (version !== undefined) published.set(uri, diagnostics);
    look();
  });
  connection.onRequest('client/registerCapability', () => null);
  connection.onRequest('workspace/configuration', ({ items }) => items.map(() => null));
  connection.listen();
  const uriOf = (file) => pathToFileURL(path.join(root, file)).href;
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    workspaceFolders: [{ uri: uriOf('samples'), name: 'samples' }],
    capabilities: {
      workspace: { workspaceFolders: true, configuration: true },
      textDocument: {
        publishDiagnostics: { relatedInformation: true, versionSupport: true, codeDescriptionSupport: true },
      },
    },
  });
  await connection.sendNotification('initialized', {});
  for (const file of files) {
    const text = readFileSync(path.join(root, file), 'utf8');
    const languageId = file.endsWith('.chassis.yaml') ? 'framewright-chassis' : 'framewright-readings';
    await connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri: uriOf(file), languageId, version: 1, text },
    });
    await new Promise((resolve) => {
      look = () => published.has(uriOf(file)) && resolve();
      look();
    });
    const text1 = JSON.stringify(published.get(uriOf(file)), null, 1).replaceAll(
      pathToFileURL(root).href,
      '',
    );
    write(`${path.basename(file)}.diagnostics.json`, `${text1}\n`);
  }
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  await ended;
}
