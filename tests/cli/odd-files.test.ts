// What a shop's folder may hold besides jobs: clear words, an exit code, no stack trace and no hang.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { framewright, patienceMs, program, repository, root } from './framewright';

const read = (name: string): string => readFileSync(path.join(root, 'samples', name), 'utf8');
const job = read('jobs/w-1192-twisted-rail.readings.yaml');
const chassisAt = (to: string): string => job.replace('../specs/marten-hatch.chassis.yaml', to);
// bytes that are no text, the same on every machine
const binary = Uint8Array.from({ length: 4096 }, (_, i) => (i * i * 31 + i * 7) % 256);
const manyErrors = `framewright: readings/1\nchassis: ../specs/marten.chassis.yaml\ntimeline:\n  - measure: a\n    readings:\n${Array.from({ length: 10_000 }, (_, i) => `      nowhere-${i}: [1, 2, 3]\n`).join('')}`;

let shop: ReturnType<typeof repository>;
beforeAll(() => {
  shop = repository({
    'specs/marten.chassis.yaml': read('specs/marten-hatch.chassis.yaml'),
    'jobs/sound.readings.yaml': chassisAt('../specs/marten.chassis.yaml'),
    'jobs/windows.readings.yaml': chassisAt('"..\\\\specs\\\\marten.chassis.yaml"'),
    'jobs/plain-windows.readings.yaml': chassisAt('..\\specs\\marten.chassis.yaml'),
    'jobs/empty.readings.yaml': '',
    'jobs/comments.readings.yaml': '# nothing yet\n\n',
    'jobs/binary.readings.yaml': binary,
    'jobs/many.readings.yaml': manyErrors,
    'jobs/nowhere.readings.yaml': chassisAt('../specs/martin.chassis.yaml'),
    'jobs/far.readings.yaml': chassisAt('../missing/other.chassis.yaml'),
    'jobs/half-a-pair.readings.yaml': chassisAt('"\\ud83d.chassis.yaml"'),
    'jobs/nul.readings.yaml': chassisAt('"a\\0b.chassis.yaml"'),
    'jobs/outside.readings.yaml': chassisAt('../../../elsewhere/marten.chassis.yaml'),
    'jobs/web.readings.yaml': chassisAt('https://pinefield.example/marten.chassis.yaml'),
    'jobs/folder-for-chassis.readings.yaml': chassisAt('../specs'),
    'jobs/binary-chassis.readings.yaml': chassisAt('../specs/binary.chassis.yaml'),
    'jobs/itself.readings.yaml': chassisAt('itself.readings.yaml'),
    'specs/binary.chassis.yaml': binary,
    'specs/circle.chassis.yaml':
      'framewright: chassis/1\nextends: circle.chassis.yaml\nvehicle: Marten\npoints: {}\n',
    'jobs/a folder.readings.yaml/note.txt': 'a folder with the name of a job',
    'a job #1, 100%/w 1.readings.yaml': chassisAt('../specs/marten.chassis.yaml'),
    'notes.txt': 'no file of ours',
    'docs/notes.txt': 'nor in here',
  });
});
afterAll(() => shop.gone());

const check = (...args: string[]) => framewright(['check', ...args], shop.folder);

describe('a file that cannot be a job is said to be none, with its place', () => {
  test.each([
    ['jobs/empty.readings.yaml', /:1:1: error: this file is empty.*\[text\/missing-key\]/],
    ['jobs/comments.readings.yaml', /error: this file is empty.*\[text\/missing-key\]/],
    ['jobs/binary.readings.yaml', /:1:1: error: this is not a text file \[text\/syntax\]/],
    ['specs/binary.chassis.yaml', /:1:1: error: this is not a text file \[text\/syntax\]/],
    ['specs/circle.chassis.yaml', /:2:10: error: this file extends itself.*\[name\/extends-cycle\]/],
    [
      'jobs/nowhere.readings.yaml',
      /there is no file \S+; did you mean \.\.\/specs\/marten\.chassis\.yaml\? \[name\/file-not-found\]/,
    ],
    ['jobs/half-a-pair.readings.yaml', /there is no file .*\.chassis\.yaml \[name\/file-not-found\]/],
    ['jobs/nul.readings.yaml', /there is no file .*\.chassis\.yaml.* \[name\/file-not-found\]/],
    [
      'jobs/far.readings.yaml',
      /there is no file \.\.\/missing\/other\.chassis\.yaml.*\[name\/file-not-found\]/,
    ],
    ['jobs/outside.readings.yaml', /lies outside the repository.*\[name\/file-not-found\]/],
    ['jobs/web.readings.yaml', /\[name\/file-not-found\]/],
    [
      'jobs/folder-for-chassis.readings.yaml',
      /\.\.\/specs: it is a folder, not a file \[name\/file-not-found\]/,
    ],
    ['jobs/binary-chassis.readings.yaml', /this is not a text file \[name\/file-not-found\]/],
    ['jobs/itself.readings.yaml', /is not a chassis file.*\[name\/file-not-found\]/],
  ])('%s', (file, words) => {
    const { code, out, err } = check(file);
    expect({ code, err }).toEqual({ code: 1, err: '' });
    expect(out).toMatch(words);
    // one cause, one finding
    expect(out).toMatch(/\n1 file: 1 error, /);
    const json = framewright(['inspect', '--json', file], shop.folder);
    expect(json.code).toBe(1);
    expect(JSON.parse(json.out).files).toHaveLength(1);
    const plan = framewright(['plan', file], shop.folder);
    expect(plan).toMatchObject({ code: 2, out: '' });
    expect(plan.err).toMatch(/^framewright: .+\n$/);
  });
});

describe('a path that is no file of ours exits 2 in one line', () => {
  test.each([
    ['nope', 'there is no such file'],
    ['jobs/nope.readings.yaml', 'there is no such file'],
    [
      'notes.txt',
      'not a Framewright file: the name must end in .chassis.yaml or .readings.yaml, or be .framewright.yaml',
    ],
    ['notes.txt/w.readings.yaml', 'there is no such file'],
    ['docs', 'no *.chassis.yaml or *.readings.yaml below this folder'],
    ['jobs/a folder.readings.yaml', 'no *.chassis.yaml or *.readings.yaml below this folder'],
  ])('%s', (file, words) => {
    for (const args of [['check'], ['inspect', '--json']]) {
      const { code, err } = framewright([...args, file], shop.folder);
      expect({ code, err }).toEqual({ code: 2, err: `framewright: ${file}: ${words}\n` });
    }
  });
});

test('what can be read is judged beside what cannot', () => {
  const { code, out } = check('nope', 'jobs/sound.readings.yaml');
  expect(code).toBe(2);
  expect(out).toContain('[reading/outside]');
});

test('a file with 10,000 errors: each is named, in bearable time', () => {
  const { code, out } = check('jobs/many.readings.yaml');
  expect(code).toBe(1);
  expect(out.match(/\[name\/unknown-point\]/g)).toHaveLength(10_000);
  expect(
    JSON.parse(framewright(['inspect', '--json', 'jobs/many.readings.yaml'], shop.folder).out).files[0]
      .findings.length,
  ).toBeGreaterThanOrEqual(10_000);
});

test('a reader that goes away early is no error', () => {
  const line = `"${process.execPath}" "${program}" check jobs/many.readings.yaml | head -n 1`;
  const { status, stdout, stderr, error } = spawnSync('sh', ['-c', line], {
    cwd: shop.folder,
    encoding: 'utf8',
    timeout: patienceMs,
  });
  expect(error).toBeUndefined();
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  expect(stdout).toMatch(/^jobs\/many\.readings\.yaml:\d+:\d+: error: .*\n$/);
});

test('the whole folder, with all of this in it', () => {
  const { code, out, err } = check();
  expect({ code, err }).toEqual({ code: 1, err: '' });
  expect(out).toContain('jobs/sound.readings.yaml: order W-1192, open');
  expect(out).not.toContain('note.txt');
});

describe('a path as another system or another hand writes it', () => {
  const said = (file: string) => check(file).out.replaceAll(file, '');
  test.each(['jobs/windows.readings.yaml', 'jobs/plain-windows.readings.yaml'])('%s', (file) => {
    expect(check(file).code).toBe(0);
    expect(said(file)).toBe(said('jobs/sound.readings.yaml'));
  });

  test('with blanks, signs and letters beyond ASCII', () => {
    const file = 'a job #1, 100%/w 1.readings.yaml';
    expect(check(file).code).toBe(0);
    expect(said(file)).toBe(said('jobs/sound.readings.yaml'));
    expect(check('a job #1, 100%').out).toContain(`${file}: order W-1192`);
  });

  test('absolute, or with a detour', () => {
    const absolute = path.join(shop.folder, 'jobs/sound.readings.yaml');
    expect(framewright(['check', absolute], root).out.replaceAll(absolute, '')).toBe(
      said('jobs/sound.readings.yaml'),
    );
    expect(check('docs/../jobs/sound.readings.yaml', 'jobs/sound.readings.yaml').out).toContain('\n1 file: ');
  });
});
