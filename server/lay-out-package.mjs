import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/**
 * Lays out the npm package of the command line in server/package: what runs on Node, with nothing left to install. The same sources give
 * the same bytes. `folder`: the server's, with its bundles built.
 */
export const layOutPackage = (folder) => {
  const made = path.join(folder, 'package');
  const to = (...steps) => path.join(made, ...steps);
  const root = path.join(folder, '..');
  rmSync(made, { recursive: true, force: true });
  mkdirSync(to('bin'), { recursive: true });
  mkdirSync(to('schemas'));
  writeFileSync(to('package.json'), `${JSON.stringify(manifest(folder, root), null, 2)}\n`);
  cpSync(path.join(folder, 'npm/README.md'), to('README.md'));
  cpSync(path.join(root, 'LICENSE'), to('LICENSE'));
  cpSync(path.join(folder, 'CHANGELOG.md'), to('CHANGELOG.md'));
  cpSync(path.join(folder, 'bin/framewright.js'), to('bin/framewright.js'));
  // what runs in a worker of a browser is the extension's
  const bundles = readdirSync(path.join(folder, 'dist')).filter((name) => !name.startsWith('browser'));
  for (const name of bundles) cpSync(path.join(folder, 'dist', name), to('dist', name));
  const schemas = path.join(root, 'schemas/json');
  for (const name of readdirSync(schemas)) cpSync(path.join(schemas, name), to('schemas', name));
};

const manifest = (folder, root) => {
  const { name, version } = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8'));
  const { description, license, engines } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
  return {
    name,
    version,
    description,
    keywords: ['collision repair', 'body measuring', 'linter', 'language server', 'yaml'],
    license,
    bin: { framewright: 'bin/framewright.js' },
    engines,
  };
};
