// Bundles the two doors of the extension and lays the server's bundles beside them: what dist/ holds is what runs.
// The server must have been built before.
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
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
]);

replaceFolder(`${folder}/dist`, results);
const server = `${folder}/../server/dist`;
copyFileSync(`${server}/main.cjs`, `${folder}/dist/server.js`);
copyFileSync(`${server}/browser.js`, `${folder}/dist/browser-server.js`);
copyFileSync(`${folder}/../LICENSE`, `${folder}/LICENSE`);

const own = thirdPartyLicences(
  results.map((result) => result.metafile),
  folder,
);
const servers = readFileSync(`${server}/third-party-licences.txt`, 'utf8');
writeFileSync(
  `${folder}/dist/third-party-licences.txt`,
  `The extension holds code of these packages.\n\n${own}\n\nIts language server holds code of these.\n\n${servers}`,
);
