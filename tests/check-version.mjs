#!/usr/bin/env node
// `npm run check:version -- v0.2.0`: refuses a release whose tag, packages and changelogs do not name one version.
import { readFileSync } from 'node:fs';
import path from 'node:path';

const root = path.join(import.meta.dirname, '..');
const text = (name) => readFileSync(path.join(root, name), 'utf8');
const wanted = (process.argv[2] ?? '').replace(/^v/, '');
const complaints = [
  ...['package.json', 'server/package.json', 'client/package.json', 'schemas/package.json']
    .map((name) => [name, JSON.parse(text(name)).version])
    .filter(([, version]) => version !== wanted)
    .map(([name, version]) => `${name} says ${version}`),
  ...['server/CHANGELOG.md', 'client/CHANGELOG.md']
    .filter((name) => !text(name).includes(`\n## [${wanted}] - `))
    .map((name) => `${name} has no section for it`),
];
for (const complaint of complaints) console.error(`version ${wanted || 'none given'}: ${complaint}`);
process.exitCode = complaints.length > 0 ? 1 : 0;
