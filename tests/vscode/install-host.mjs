#!/usr/bin/env node
// Installs the workbench that the editor tests run in: the server build of VS Code 1.100, whose extension host is
// the real one and whose window is a page in Chromium. Everything comes from the npm registry, pinned by the hashes
// in host-lock/; VS Code for the Web likewise, by web-host-lock/. Run again, it does nothing until these change.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const here = import.meta.dirname;
const lock = path.join(here, 'host-lock');
export const hostFolder = process.env.WORKBENCH_HOST ?? path.join(here, 'host');
const webLock = path.join(here, 'web-host-lock');
export const webHostFolder = process.env.WEB_WORKBENCH_HOST ?? path.join(here, 'web-host');
export const serverMain = path.join(hostFolder, 'vscode/out/server-main.js');

/** Installs what is not there yet, in about ten seconds; returns the path of the workbench's server. */
export const installHost = () => {
  const stamp = path.join(hostFolder, 'installed');
  const wanted = hashOf(
    ...readdirSync(lock)
      .sort()
      .map((file) => readFileSync(path.join(lock, file))),
  );
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return serverMain;

  rmSync(hostFolder, { recursive: true, force: true });
  mkdirSync(hostFolder, { recursive: true });
  const { workbench } = JSON.parse(readFileSync(path.join(lock, 'archives.json'), 'utf8'));
  unpack(workbench, path.join(hostFolder, 'vscode'));
  installPackages(path.join(hostFolder, 'vscode'));
  writeFileSync(stamp, wanted);
  return serverMain;
};

/** VS Code for the Web, whose extension host is a worker of the page, and the server of its tests; returns their folder. */
export const installWebHost = () => {
  const stamp = path.join(webHostFolder, 'installed');
  const files = ['package.json', 'package-lock.json'];
  const wanted = hashOf(...files.map((file) => readFileSync(path.join(webLock, file))));
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return webHostFolder;
  rmSync(webHostFolder, { recursive: true, force: true });
  mkdirSync(webHostFolder, { recursive: true });
  for (const file of files) copyFileSync(path.join(webLock, file), path.join(webHostFolder, file));
  run('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund'], webHostFolder);
  writeFileSync(stamp, wanted);
  return webHostFolder;
};

const hashOf = (...contents) => {
  const hash = createHash('sha512');
  for (const content of contents) hash.update(content);
  return `sha512-${hash.digest('base64')}`;
};

const run = (program, args, cwd) =>
  execFileSync(program, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });

/** The package as a whole cannot be installed (it compiles and downloads); only one folder of it is wanted. */
const unpack = ({ package: name, folder, integrity }, target) => {
  const [{ filename }] = JSON.parse(run('npm', ['pack', '--json', name], hostFolder));
  const archive = path.join(hostFolder, filename);
  const found = hashOf(readFileSync(archive));
  if (found !== integrity) throw new Error(`${name}: the archive's hash is ${found}, not ${integrity}`);
  mkdirSync(target);
  const depth = String(folder.split('/').length);
  run('tar', ['-xzf', archive, '-C', target, '--strip-components', depth, folder]);
  rmSync(archive);
};

const installPackages = (vscode) => {
  rmSync(path.join(vscode, 'npm-shrinkwrap.json'));
  for (const file of ['package.json', 'package-lock.json']) {
    copyFileSync(path.join(lock, file), path.join(vscode, file));
  }
  // Without their scripts: they would compile native modules. Those that matter are stood in for below.
  run('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund'], vscode);
  const modules = path.join(vscode, 'node_modules');
  symlinkSync('node_modules', path.join(vscode, 'node_modules.asar'));

  copyFileSync(path.join(here, 'spdlog-stand-in.cjs'), path.join(modules, '@vscode/spdlog/index.js'));
  writeFileSync(path.join(modules, 'native-watchdog/index.js'), 'exports.start = () => {};\n');

  // The search program: its usual package downloads it, so a package of that name points to the one that is shipped.
  const shipped = path.join(modules, `@vscode/ripgrep-${process.platform}-${process.arch}`, 'bin/rg');
  if (!existsSync(shipped))
    throw new Error(`no ripgrep for ${process.platform}-${process.arch} in host-lock`);
  const ripgrep = path.join(modules, '@vscode/ripgrep');
  mkdirSync(path.join(ripgrep, 'bin'), { recursive: true });
  copyFileSync(shipped, path.join(ripgrep, 'bin/rg'));
  writeFileSync(path.join(ripgrep, 'package.json'), '{ "name": "@vscode/ripgrep", "main": "index.js" }\n');
  writeFileSync(
    path.join(ripgrep, 'index.js'),
    "exports.rgPath = require('node:path').join(__dirname, 'bin/rg');\n",
  );
};

if (process.argv[1] === fileURLToPath(import.meta.url)) console.log(`${installHost()}\n${installWebHost()}`);
