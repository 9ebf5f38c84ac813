import { readdirSync, readFileSync } from 'node:fs';
import { carChassis } from '../testing/car';
import type { Files } from '../workspace/files';
import { memoryFiles } from '../workspace/testing/memory-files';
import type { Output } from './check-selected';
import type { Target } from './collect';

/** For the tests of the commands: a shop in memory, and what a command prints and complains. */

const folder = 'file:///shop/';

export const target = (path: string): Target => ({ path, uri: path === '.' ? folder : folder + path });

/** Files by their paths below the shop's folder, which reads as one; the small car is there where it is named. */
export function shopOf(texts: Record<string, string>): Files {
  const named = Object.values(texts).some((text) => text.includes('car.chassis.yaml'));
  const all: Record<string, string> = named ? { 'car.chassis.yaml': carChassis, ...texts } : texts;
  const uris = Object.fromEntries(Object.entries(all).map(([path, text]) => [folder + path, text]));
  const files = memoryFiles(uris, folder);
  const isFolder = (uri: string) =>
    Object.keys(uris).some((each) => each.startsWith(uri.replace(/\/?$/, '/')));
  return {
    ...files,
    read: async (uri) =>
      isFolder(uri) ? { kind: 'folder', message: 'it is a folder, not a file' } : files.read(uri),
  };
}

interface Recorded {
  readonly code: number;
  readonly printed: string;
  readonly complained: string;
}

/** Runs a command and keeps what it says. */
export async function recorded(run: (output: Output) => Promise<number>): Promise<Recorded> {
  const [printed, complained]: string[][] = [[], []];
  const code = await run({
    print: (line) => void printed.push(line),
    complain: (line) => void complained.push(line),
  });
  return { code, printed: printed.join('\n'), complained: complained.join('\n') };
}

const samples = new URL('../../../samples/', import.meta.url);
const below = (path: string) =>
  readdirSync(new URL(path, samples))
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => `${path}${name}`);

/** The sample shop, by paths below `samples/`. */
export const sampleTexts: Record<string, string> = Object.fromEntries(
  ['.framewright.yaml', ...below('specs/'), ...below('jobs/')].map((path) => [
    path,
    readFileSync(new URL(path, samples), 'utf8'),
  ]),
);
