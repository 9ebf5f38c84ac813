import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { Script } from 'node:vm';
import { keptCode } from '../node/kept-code';

/** Loads the bundles that lie beside this one when they are asked for, with what V8 made of them in runs before. */

/** The bundles of the command line, by what each exports. */
interface Bundles {
  'cli-check': typeof import('./cli-check');
  'cli-baseline': typeof import('./cli-baseline');
  'cli-judge': typeof import('./cli-judge');
  'cli-commands': typeof import('./cli-commands');
  'cli-files': typeof import('./cli-files');
  'cli-diff': typeof import('./cli-diff');
  'cli-tables': typeof import('./cli-tables');
  main: typeof import('./main');
  spreadsheet: typeof import('./spreadsheet');
}

const loaded: Partial<Bundles> = {};

/** @param isThread a thread calls less than the run that began it: what it compiled is not kept */
export function bundle<Name extends keyof Bundles>(name: Name, isThread = false): Bundles[Name] {
  const before = loaded[name];
  if (before !== undefined) return before;
  const made = load(name, isThread);
  loaded[name] = made;
  return made;
}

function load<Name extends keyof Bundles>(name: Name, isThread: boolean): Bundles[Name] {
  const path = join(import.meta.dirname, `${name}.cjs`);
  // not ASCII: esbuild leaves the letters of tagged templates as they are
  const text = readFileSync(path, 'utf8');
  const kept = keptCode(name, text);
  const script = new Script(`(function(exports,require,module,__dirname){${text}\n})`, {
    // its name alone: what is kept holds it, and says nothing of the machine
    filename: `${name}.cjs`,
    cachedData: kept.data,
  });
  const module = { exports: {} as Bundles[Name] };
  script.runInThisContext()(module.exports, createRequire(path), module, import.meta.dirname);
  // at the end what was called is compiled
  if (!isThread) process.once('exit', () => kept.add(script));
  return module.exports;
}
