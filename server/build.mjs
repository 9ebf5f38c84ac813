// Bundles the three doors. dist/cli.js and the chunks beside it: the command line, each command loaded when asked
// for. dist/main.cjs: the language server as one file, for an editor to start. dist/browser.js: the same as a worker.
import { writeFileSync } from 'node:fs';
import { build } from 'esbuild';
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
    entryPoints: { cli: 'src/cli.ts', 'check-thread': 'src/check-thread.ts' },
    outdir: 'dist',
    chunkNames: 'chunks/[name]-[hash]',
    platform: 'node',
    target: 'node20',
    format: 'esm',
    splitting: true,
    // Packages in the older module format ask for Node's own modules by require, which this format lacks.
    banner: {
      js: "import{createRequire as framewrightRequire}from'node:module';const require=framewrightRequire(import.meta.url);",
    },
  },
  {
    entryPoints: ['src/main.ts'],
    outfile: 'dist/main.cjs',
    platform: 'node',
    target: 'node20',
    format: 'cjs',
  },
  // Platform browser: a Node module that creeps in stops the build here.
  { entryPoints: ['src/browser.ts'], outfile: 'dist/browser.js', platform: 'browser', format: 'iife' },
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
