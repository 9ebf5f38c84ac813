// Bundles the two doors of the extension and lays the server's bundles beside them: what dist/ holds is what runs.
// The server must have been built before.
import { copyFileSync, cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';
import { replaceFolder } from '../server/replace-folder.mjs';
import { thirdPartyLicences } from '../server/third-party-licences.mjs';

const folder = import.meta.dirname;
const common = {
  absWorkingDir: folder,
  bundle: true,
  minify: true,
  legalComments: 'none',
  metafile: true,
  write: false,
  logLevel: 'warning',
  format: 'cjs',
  external: ['vscode'],
  outdir: 'dist',
};

const results = await Promise.all([
  build({ ...common, entryPoints: ['src/extension.ts'], platform: 'node', target: 'node20' }),
  build({ ...common, entryPoints: ['src/browser.ts'], platform: 'browser', target: 'es2022' }),
  // The pages of the views: scripts for a browser, each on its own.
  build({
    ...common,
    entryPoints: { 'drawing-view': 'src/webview/drawing.ts', 'solid-view': 'src/webview/solid/solid.ts' },
    platform: 'browser',
    target: 'es2022',
    format: 'iife',
    external: [],
  }),
]);

replaceFolder(`${folder}/dist`, results);
const server = `${folder}/../server/dist`;
copyFileSync(`${server}/browser.js`, `${folder}/dist/browser-server.js`);
copyFileSync(`${server}/browser-spreadsheet.js`, `${folder}/dist/browser-spreadsheet.js`);
copyFileSync(`${folder}/../LICENSE`, `${folder}/LICENSE`);

// The command line, for tasks, and the language server in it: laid out as in its own package.
const command = `${folder}/dist/command`;
const { version } = JSON.parse(readFileSync(`${folder}/../server/package.json`, 'utf8'));
mkdirSync(`${command}/bin`, { recursive: true });
writeFileSync(`${command}/package.json`, `${JSON.stringify({ version })}\n`);
copyFileSync(`${folder}/../server/bin/framewright.js`, `${command}/bin/framewright.js`);
for (const part of [
  'cli.cjs',
  'cli-check.cjs',
  'cli-baseline.cjs',
  'cli-judge.cjs',
  'cli-commands.cjs',
  'check-thread.cjs',
  'main.cjs',
  'spreadsheet.cjs',
])
  cpSync(`${server}/${part}`, `${command}/dist/${part}`);

const own = thirdPartyLicences(
  results.map((result) => result.metafile),
  folder,
);
const servers = readFileSync(`${server}/third-party-licences.txt`, 'utf8');
writeFileSync(
  `${folder}/dist/third-party-licences.txt`,
  `The extension holds code of these packages.\n\n${own}\n\nIts language server holds code of these.\n\n${servers}`,
);
