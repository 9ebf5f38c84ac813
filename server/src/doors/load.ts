import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { Script } from 'node:vm';

/**
 * Loads the bundles that lie beside this one when they are asked for. Beside some of them stands what V8 made of their text when they
 * were built (`NAME.cache`): with it a command starts without reading its program anew. V8 takes it only where its own version, its
 * flags and the text's length are the same, and reads the text where they are not.
 */

/** The bundles of the command line, by what each exports. */
interface Bundles {
  'cli-check': typeof import('./cli-check');
  'cli-judge': typeof import('./cli-judge');
  'cli-commands': typeof import('./cli-commands');
  'cli-files': typeof import('./cli-files');
  'cli-diff': typeof import('./cli-diff');
  'cli-tables': typeof import('./cli-tables');
  main: typeof import('./main');
  spreadsheet: typeof import('./spreadsheet');
}

export const bundle = <Name extends keyof Bundles>(name: Name): Bundles[Name] => compiledBundle(name).exports;

/** A bundle that was run, and the script that it was run from: what is compiled by now can be taken from that. */
export function compiledBundle<Name extends keyof Bundles>(
  name: Name,
): { exports: Bundles[Name]; script: Script } {
  const path = join(import.meta.dirname, `${name}.cjs`);
  // not ASCII: esbuild leaves the letters of tagged templates as they are
  const text = readFileSync(path, 'utf8');
  const script = new Script(`(function(exports,require,module,__dirname){${text}\n})`, {
    // its name alone: the cache holds it, and says nothing of the machine that built it
    filename: `${name}.cjs`,
    cachedData: cacheOf(name),
  });
  const module = { exports: {} as Bundles[Name] };
  script.runInThisContext()(module.exports, createRequire(path), module, import.meta.dirname);
  return { exports: module.exports, script };
}

function cacheOf(name: string): Buffer | undefined {
  try {
    return readFileSync(join(import.meta.dirname, `${name}.cache`));
  } catch {
    return undefined;
  }
}
