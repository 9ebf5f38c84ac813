// Writes beside three bundles what V8 makes of them, so that a command or an editor's session starts without reading its program anew.
// `check` is run on a small shop first, and a job opened and edited: what was called once is kept with it.
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const dist = path.join(import.meta.dirname, 'dist');
const { compiledBundle } = createRequire(import.meta.url)('./dist/cli.cjs');
const keep = (name, script) => writeFileSync(path.join(dist, `${name}.cache`), script.createCachedData());

if (process.argv[2] === 'serve') {
  const { exports, script } = compiledBundle('main');
  process.on('exit', () => keep('main', script));
  await exports.serve();
}

const control = [
  ['floor-front', 1200, 420, 95],
  ['floor-rear', -350, 455, 90],
  ['cowl-hole', 1480, 612, 905],
  ['rear-floor', -1050, 388, 296],
];
const judged = [1760, 2180, 2600, 3012].flatMap((x) => [
  [`rail-${x}-lower`, x, 441, 188],
  [`rail-${x}-upper`, x, 445, 328],
]);
const rows = (points, kind) => points.map(([name, ...at]) => `  ${name}: { both: [${at}], ${kind} }`);
const chassis = [
  'framewright: chassis/1',
  'vehicle: Marten',
  'source: { kind: published, reference: sheet 7, date: 2026-01-12 }',
  'parts:',
  '  floor: { steel: mild, straighten: freely }',
  '  front-rail: { sided: true, along: length, steel: high-strength, straighten: minor, reference: manual }',
  'points:',
  ...rows(control, 'part: floor, base: true, fixing: hole'),
  ...rows(judged, 'part: front-rail'),
];
/** Every other point beyond 2500 mm stands 8 mm inboard on the left. */
const readings = [...control, ...judged].flatMap(([name, x, y, z], i) => [
  `      ${name}.L: [${x}.2, ${y - (x > 2500 && i % 2 === 0 ? 8 : 0)}.1, ${z}.0]`,
  `      ${name}.R: [${x}.0, ${-y}.2, ${z}.1]`,
]);
const job = [
  'framewright: readings/1',
  'chassis: marten.chassis.yaml',
  'instrument: { name: arm, uncertainty: 0.3, repeatability: 0.2 }',
  'timeline:',
  ...['as received', 'again'].flatMap((name) => [`  - measure: ${name}`, '    readings:', ...readings]),
  '  - note: done',
];

const folder = mkdtempSync(path.join(tmpdir(), 'framewright-build-'));
try {
  const write = (name, lines) => writeFileSync(path.join(folder, name), `${lines.join('\n')}\n`);
  write('marten.chassis.yaml', chassis);
  write('w-1.readings.yaml', job);
  process.env.XDG_CACHE_HOME = process.env.LOCALAPPDATA = path.join(folder, 'cache');
  const options = { open: false, verbose: true, summaries: false, coloured: false };
  const judge = compiledBundle('cli-judge');
  const jobs = ['marten.chassis.yaml', 'w-1.readings.yaml'].map((name) => path.join(folder, name));
  const targets = jobs.map((each) => ({ path: each, uri: pathToFileURL(each).href }));
  for await (const { report } of judge.exports.madeFromDisk()(targets, options))
    if (report.isFaulty || report.unreadable !== null)
      throw new Error(`${report.path} cannot be judged in the build`);
  keep('cli-judge', judge.script);
  const check = compiledBundle('cli-check');
  const choice = {
    against: null,
    dependents: false,
    incoming: null,
    cache: true,
    judge: () => judge.exports,
  };
  // the second time by what was kept of the first
  for (const _ of [1, 2]) {
    const printed = [];
    await check.exports.checked(
      [{ path: folder, uri: pathToFileURL(folder).href }],
      options,
      { print: (line) => printed.push(line), complain: (line) => printed.push(line) },
      choice,
    );
    if (!printed.at(-1).startsWith('2 files'))
      throw new Error(`check failed in the build:\n${printed.join('\n')}`);
  }
  keep('cli-check', check.script);
  await session(folder, job.join('\n'));
} finally {
  rmSync(folder, { recursive: true, force: true });
}

/** An editor's session as short as can be, with the server in a process of its own, which keeps its code when it ends. */
async function session(folder, text) {
  const server = spawn(process.execPath, [import.meta.filename, 'serve', '--stdio'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const ended = new Promise((resolve) => server.once('exit', resolve));
  let said = '';
  let heard = () => {};
  server.stdout.setEncoding('utf8').on('data', (chunk) => {
    said += chunk;
    heard();
  });
  const send = (message) => {
    const body = JSON.stringify({ jsonrpc: '2.0', ...message });
    server.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  };
  const toSay = async (words) => {
    const giveUp = setTimeout(() => server.kill(), 60_000);
    while (!said.includes(words)) {
      const more = new Promise((resolve) => {
        heard = resolve;
      });
      if ((await Promise.race([more, ended.then(() => 'ended')])) === 'ended')
        throw new Error(`the server ended in the build before it said ${words}`);
    }
    said = '';
    clearTimeout(giveUp);
  };
  const uri = pathToFileURL(path.join(folder, 'w-1.readings.yaml')).href;
  send({ id: 1, method: 'initialize', params: { processId: null, rootUri: null, capabilities: {} } });
  await toSay('"id":1');
  send({ method: 'initialized', params: {} });
  const textDocument = { uri, languageId: 'framewright-readings', version: 1, text: `${text}\n` };
  send({ method: 'textDocument/didOpen', params: { textDocument } });
  await toSay('"version":1');
  const contentChanges = [
    { range: { start: { line: 1, character: 0 }, end: { line: 1, character: 0 } }, text: '\n' },
  ];
  send({ method: 'textDocument/didChange', params: { textDocument: { uri, version: 2 }, contentChanges } });
  await toSay('"version":2');
  send({ id: 2, method: 'shutdown' });
  await toSay('"id":2');
  send({ method: 'exit' });
  const code = await ended;
  if (code !== 0) throw new Error(`the server ended with ${code} in the build`);
}
