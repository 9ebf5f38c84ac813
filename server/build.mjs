// Bundles the three doors. dist/cli.cjs: the command line, which loads the bundles beside it when asked for. dist/main.cjs: the language
// server as one file, for an editor to start. dist/browser.js: the same as a worker. Then lays out the npm package of the command line.
import { writeFileSync } from 'node:fs';
import { build } from 'esbuild';
import { layOutPackage } from './lay-out-package.mjs';
import { replaceFolder } from './replace-folder.mjs';
import { thirdPartyLicences } from './third-party-licences.mjs';

const folder = import.meta.dirname;
const common = {
  absWorkingDir: folder,
  bundle: true,
  minify: true,
  legalComments: 'none',
  metafile: true,
  write: false,
  logLevel: 'warning',
  target: 'es2022',
};

const doors = [
  {
    entryPoints: [
      'cli',
      'cli-check',
      'cli-baseline',
      'cli-judge',
      'cli-commands',
      'cli-diff',
      'cli-files',
      'cli-tables',
      'spreadsheet',
      'check-thread',
      'main',
    ].map((name) => `src/doors/${name}.ts`),
    outdir: 'dist',
    outExtension: { '.js': '.cjs' },
    platform: 'node',
    target: 'node20',
    format: 'cjs',
    define: { 'import.meta.dirname': '__dirname' },
  },
  // Platform browser: a Node module that creeps in stops the build here.
  { entryPoints: ['src/doors/browser.ts'], outfile: 'dist/browser.js', platform: 'browser', format: 'iife' },
  // Loaded by that worker where a table is a spreadsheet.
  {
    entryPoints: ['src/doors/spreadsheet.ts'],
    outfile: 'dist/browser-spreadsheet.js',
    platform: 'browser',
    format: 'iife',
    globalName: 'framewrightSpreadsheet',
  },
];

const results = await Promise.all(doors.map((door) => build({ ...common, ...door })));
replaceFolder(`${folder}/dist`, results);
writeFileSync(
  `${folder}/dist/third-party-licences.txt`,
  thirdPartyLicences(
    results.map((result) => result.metafile),
    folder,
  ),
);
layOutPackage(folder);
