import { readFileSync } from 'node:fs';
import path from 'node:path';

const client = path.join(import.meta.dirname, '../client');
const text = (name: string): string => readFileSync(path.join(client, name), 'utf8');

/** The extension's manifest as it is written, and the words that its keys stand for. */
export const writtenManifest = JSON.parse(text('package.json'));
export const words: Readonly<Record<string, string>> = JSON.parse(text('package.nls.json'));

/** The manifest as the editor reads it: with the words in place of their keys. */
export const manifest = JSON.parse(text('package.json'), (_, value) =>
  typeof value === 'string' ? value.replace(/^%(.+)%$/, (key, name) => words[name] ?? key) : value,
);
