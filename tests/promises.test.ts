// A rejected promise that nobody waits for ends a process. Each is awaited, or handed to `unawaited`, which says who hears of it.
import path from 'node:path';
import ts from 'typescript';
import { expect, test } from 'vitest';
import { floatingPromises } from './promises';

const root = path.join(import.meta.dirname, '..');
const { config } = ts.readConfigFile(path.join(root, 'tsconfig.json'), ts.sys.readFile);
const { options } = ts.parseJsonConfigFileContent(config, ts.sys, root);

/** The compiler reads the whole program, on a machine that may be busy. */
const patienceMs = 300_000;

/** A file beside those of the server, so that it may import them; never written. */
const exampleFile = path.join(root, 'server/src/example-of-promises.ts');

function programOf(files: readonly string[], example: string): ts.Program {
  const host = ts.createCompilerHost(options);
  const { getSourceFile, fileExists, readFile } = host;
  host.fileExists = (name) => name === exampleFile || fileExists(name);
  host.readFile = (name) => (name === exampleFile ? example : readFile(name));
  host.getSourceFile = (name, ...rest) =>
    name === exampleFile
      ? ts.createSourceFile(name, example, ts.ScriptTarget.ES2022, true)
      : getSourceFile(name, ...rest);
  return ts.createProgram({ rootNames: files, options, host });
}

const example = `import type { Connection } from 'vscode-languageserver';
import type { Files } from './workspace/files';
import { unawaited } from './workspace/unawaited';
declare const connection: Connection, files: Files, isOpen: boolean;
declare function later(): Promise<number>;
later(); // floats
void later(); // floats
later().then(() => {}); // floats
later().finally(() => {}); // floats
files.read('a'); // floats
connection.languages.inlayHint.refresh(); // floats
connection.sendDiagnostics({ uri: '', diagnostics: [] }); // floats
isOpen && later(); // floats
isOpen ? later() : null; // floats
new Promise(() => {}); // floats
(isOpen && void later()); // floats
setTimeout(async () => { await later(); }, 1); // floats
[1].forEach(async () => { await later(); }); // floats
export async function waits(): Promise<number> {
  await later();
  const kept = later();
  let again = kept;
  again = later();
  unawaited(later(), () => {});
  connection.onShutdown(async () => { await later(); });
  setTimeout(() => unawaited(later(), () => {}), 1);
  [1].map(() => 2).forEach(() => {});
  return again;
}
`;

test(
  'is found in every form, and what is awaited or handed on is not',
  () => {
    const program = programOf([exampleFile], example);
    expect(program.getSemanticDiagnostics(program.getSourceFile(exampleFile)).length).toBe(0);
    const wanted = example.split('\n').flatMap((line, i) => (line.endsWith('// floats') ? [i + 1] : []));
    const found = floatingPromises(program, (file) => file === exampleFile);
    expect(found.map((place) => Number(place.slice(exampleFile.length + 1).split(':')[0]))).toEqual(wanted);
  },
  patienceMs,
);

test(
  'there is none in the server',
  () => {
    const doors = [
      'main',
      'browser',
      'cli',
      'cli-check',
      'cli-baseline',
      'cli-judge',
      'cli-commands',
      'cli-diff',
      'cli-files',
      'check-thread',
    ];
    const program = programOf(
      doors.map((name) => path.join(root, `server/src/doors/${name}.ts`)),
      '',
    );
    const isOurs = (file: string): boolean =>
      /\/(server|schemas)\/src\//.test(file) && !file.endsWith('/workspace/unawaited.ts');
    expect(program.getSourceFiles().filter(({ fileName }) => isOurs(fileName)).length).toBeGreaterThan(200);
    expect(floatingPromises(program, isOurs)).toEqual([]);
  },
  patienceMs,
);
