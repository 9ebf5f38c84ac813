/** The sample files by their paths below `samples/`, and the folder that they are read from in memory. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { Texts } from './mutations';

const root = path.join(import.meta.dirname, '../../samples');
export const folder = 'file:///shop/';
const named = (below: string): string[] =>
  readdirSync(path.join(root, below))
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => `${below}/${name}`);
export const jobs = named('jobs');
export const specs = named('specs');
export const all = [...jobs, ...specs];
export const samples: Texts = Object.fromEntries(
  all.map((name) => [name, readFileSync(path.join(root, name), 'utf8')]),
);
