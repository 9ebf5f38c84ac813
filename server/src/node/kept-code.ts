import { readdirSync, rmSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Script } from 'node:vm';
import { cacheFolder, keptAs, keptIn, sumOf } from './kept-file';

/**
 * What V8 made of a bundle's text, kept in the user's cache folder: with it a command starts without reading its program anew. The first
 * runs make it, as what was called in them is compiled with it; those after them use it. V8 itself compares its version, its flags and the
 * length of the text alone, so a file is named by all of the text, and holds a sum of its own.
 */

/** The layout of a file: how many runs have added to it, one byte, then V8's data. */
const layout = 1;
/** A second check calls other functions than the first, which judged; after these nothing is added. */
const runsThatAdd = 3;
/** When one is made, those that are older go, and the oldest where there are more. */
const oldestMs = 30 * 24 * 3600 * 1000;
const mostFiles = 24;

interface KeptCode {
  /** For V8; undefined where there is none yet. */
  readonly data: Buffer | undefined;
  /** Called at the end of a run. Where nothing can be kept, nothing is missed. */
  readonly add: (script: Script) => void;
}

const nothingKept: KeptCode = { data: undefined, add: () => {} };

/** Of a bundle with this text. */
export function keptCode(name: string, text: string, folder: string | null = cacheFolder()): KeptCode {
  if (folder === null) return nothingKept;
  const { version, arch, execArgv, env } = process;
  const key = sumOf(JSON.stringify([version, arch, execArgv, env.NODE_OPTIONS ?? '', sumOf(text)]));
  const path = join(folder, `code-${layout}`, `${name}-${key}`);
  const kept = isOurs(path) ? keptIn(path) : null;
  const runs = kept === null ? 0 : kept[0];
  return {
    data: kept?.subarray(1),
    add: (script) => {
      const isRefused = script.cachedDataRejected === true;
      if (runs >= runsThatAdd && !isRefused) return;
      const added = Buffer.concat([Buffer.of(isRefused ? 1 : runs + 1), script.createCachedData()]);
      if (keptAs(path, added) && runs === 0) sweep(join(folder, `code-${layout}`), basename(path));
    },
  };
}

/** It will be run: what another user wrote there is none of ours. */
function isOurs(path: string): boolean {
  try {
    return process.getuid === undefined || statSync(path).uid === process.getuid();
  } catch {
    return false;
  }
}

function sweep(folder: string, made: string): void {
  try {
    readdirSync(folder)
      .filter((name) => name !== made)
      .map((name) => ({ path: join(folder, name), at: statSync(join(folder, name)).mtimeMs }))
      .sort((a, b) => b.at - a.at)
      .filter(({ at }, i) => i >= mostFiles - 1 || Date.now() - at > oldestMs)
      .forEach(({ path }) => {
        rmSync(path, { force: true });
      });
  } catch {
    // somebody else sweeps, or it may not be written: another time
  }
}
