import {
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { sumOf } from './kept-file';
import { KnownContents } from './known-contents';

let folder: string;
let file: string;
const uri = () => pathToFileURL(file).href;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'framewright-contents-'));
  file = join(folder, 'a.readings.yaml');
  writeFileSync(file, 'first');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const kept = () => join(folder, 'cache');
const minuteMs = 60_000;
/** The clock of a run a minute from now: what was written until now is old for it. */
const later = () => Date.now() + minuteMs;

type Look = ConstructorParameters<typeof KnownContents>[2];

/** One run: the sum of the file, and what is kept of it. */
function run(now: () => number, look?: Look): string | null {
  const contents = new KnownContents(kept(), 'here', look, now);
  const sum = contents.sumOf(uri());
  contents.keep();
  return sum;
}

/** A system that says the same of a file whatever is written into it, as one does within a tick of its clock. */
function asItIs(): NonNullable<Look> {
  const status = statSync(file, { bigint: true });
  return () => status;
}

describe('a file that looks as it did', () => {
  it('is not read again', () => {
    const look = asItIs();
    expect(run(later, look)).toBe(sumOf('first'));
    writeFileSync(file, 'other');
    expect(run(later, look)).toBe(sumOf('first'));
  });

  it('is read again where it was young when it was read: within a tick it may have changed unseen', () => {
    const look = asItIs();
    expect(run(Date.now, look)).toBe(sumOf('first'));
    writeFileSync(file, 'other');
    expect(run(later, look)).toBe(sumOf('other'));
  });

  it('is read again where its time lies ahead of the clock', () => {
    const look = asItIs();
    const past = () => Date.now() - minuteMs;
    run(past, look);
    writeFileSync(file, 'other');
    expect(run(later, look)).toBe(sumOf('other'));
  });
});

describe('a change is seen', () => {
  it('of the same size, with the time set back', () => {
    const { atime, mtime } = statSync(file);
    run(later);
    writeFileSync(file, 'other');
    utimesSync(file, atime, mtime);
    expect(run(later)).toBe(sumOf('other'));
  });

  it('by another file put in its place, and by a link that leads elsewhere', () => {
    const [one, two] = ['one', 'two'].map((name) => join(folder, name));
    for (const each of [one, two]) writeFileSync(each, each.slice(-3));
    rmSync(file);
    symlinkSync(one, file);
    expect(run(later)).toBe(sumOf('one'));
    rmSync(file);
    symlinkSync(two, file);
    expect(run(later)).toBe(sumOf('two'));
    rmSync(file);
    expect(run(later)).toBeNull();
  });
});

describe('what is kept', () => {
  const only = () => {
    const [name] = readdirSync(join(kept(), 'contents-1'));
    return join(kept(), 'contents-1', name);
  };

  it.each<[string, (text: string) => string]>([
    ['cut short', (text) => text.slice(0, -9)],
    ['changed in one letter', (text) => text.replace(sumOf('first'), sumOf('other'))],
    ['empty', () => ''],
  ])('is as none where it is %s', (_, damage) => {
    run(later);
    writeFileSync(only(), damage(readFileSync(only(), 'utf8')));
    expect(run(later)).toBe(sumOf('first'));
  });

  it('stays where nothing is news, and is not missed where it cannot be written', () => {
    run(later);
    const { mtimeMs } = statSync(only());
    run(later);
    expect(statSync(only()).mtimeMs).toBe(mtimeMs);
    rmSync(kept(), { recursive: true });
    writeFileSync(kept(), 'a file is in the way');
    expect(run(later)).toBe(sumOf('first'));
  });

  it('is of each place by itself', () => {
    const look = asItIs();
    run(later, look);
    writeFileSync(file, 'other');
    const elsewhere = new KnownContents(kept(), 'elsewhere', look, later);
    expect(elsewhere.sumOf(uri())).toBe(sumOf('other'));
  });
});
