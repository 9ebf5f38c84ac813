import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/** Writes what esbuild built (`write: false`) in place of all that a folder held: a failed build leaves the last good one. */
export const replaceFolder = (folder, results) => {
  rmSync(folder, { recursive: true, force: true });
  for (const { path: file, contents } of results.flatMap((result) => result.outputFiles)) {
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(file, contents);
  }
};
