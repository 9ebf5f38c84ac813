// What stands in a shop's folder and cannot be looked into is said, each in a line, with exit code 2: never passed over.
import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { framewright, patienceMs, repository, root } from './framewright';

const read = (name: string): string => readFileSync(path.join(root, 'samples', name), 'utf8');
const sound = read('jobs/w-1192-twisted-rail.readings.yaml');
const failing = read('jobs/w-1211-measuring-mistakes.readings.yaml');
const specs = {
  'specs/marten-hatch.chassis.yaml': read('specs/marten-hatch.chassis.yaml'),
  'specs/teal-estate.chassis.yaml': read('specs/teal-estate.chassis.yaml'),
};

let shop: ReturnType<typeof repository>;
let elsewhere: ReturnType<typeof repository>;
const at = (...names: string[]): string => path.join(shop.folder, ...names);
const check = (...args: string[]) => framewright(['check', ...args], shop.folder);
const lines = (err: string): string[] => err.trimEnd().split('\n').filter(Boolean);

beforeAll(() => {
  shop = repository({ ...specs, 'jobs/w-1192.readings.yaml': sound });
  elsewhere = repository({ ...specs, 'jobs/w-1.readings.yaml': failing });
});
afterAll(() => {
  shop.gone();
  elsewhere.gone();
});

describe('for somebody who may not read all', () => {
  let copy: string;
  /** As the user who may do everything nothing is unreadable: then the program runs as another. */
  const asAnother = (args: readonly string[]) => {
    const isSuperuser = process.getuid?.() === 0;
    const { status, stdout, stderr, error } = spawnSync(
      process.execPath,
      [path.join(copy, 'bin/framewright.js'), ...args],
      {
        cwd: shop.folder,
        encoding: 'utf8',
        timeout: patienceMs,
        ...(isSuperuser ? { uid: 65534, gid: 65534 } : {}),
      },
    );
    expect(error).toBeUndefined();
    return { code: status, out: stdout, err: stderr };
  };

  beforeAll(() => {
    // a place that everybody may read
    copy = mkdtempSync(path.join(tmpdir(), 'framewright-'));
    for (const part of ['bin', 'dist', 'package.json'])
      cpSync(path.join(root, 'server', part), path.join(copy, part), { recursive: true });
    for (const folder of [copy, shop.folder]) chmodSync(folder, 0o755);
    mkdirSync(at('jobs/closed'));
    writeFileSync(at('jobs/closed/w-1.readings.yaml'), failing);
  });
  afterAll(() => {
    chmodSync(at('jobs/closed'), 0o755);
    rmSync(at('jobs/closed'), { recursive: true });
    rmSync(copy, { recursive: true });
  });

  test('a folder', () => {
    chmodSync(at('jobs/closed'), 0o000);
    for (const args of [['check'], ['check', 'jobs'], ['inspect', '--json', 'jobs']]) {
      const { code, out, err } = asAnother(args);
      expect({ code, err }).toEqual({
        code: 2,
        err: 'framewright: jobs/closed: this folder may not be read\n',
      });
      expect(out).toContain('W-1192');
    }
    expect(asAnother(['check', '--exit-zero']).code).toBe(2);
    expect(asAnother(['check', 'jobs/closed']).err).toBe(
      'framewright: jobs/closed: this folder may not be read\n',
    );
  });

  test('files in a folder that may be listed only, and one that may not be read itself', () => {
    chmodSync(at('jobs/closed'), 0o744);
    expect(asAnother(['check', 'jobs'])).toMatchObject({
      code: 2,
      err: 'framewright: jobs/closed/w-1.readings.yaml: it may not be read\n',
    });
    chmodSync(at('jobs/closed'), 0o755);
    chmodSync(at('jobs/closed/w-1.readings.yaml'), 0o000);
    expect(asAnother(['check', 'jobs'])).toMatchObject({
      code: 2,
      err: 'framewright: jobs/closed/w-1.readings.yaml: it may not be read\n',
    });
  });
});

describe('what is no file', () => {
  test('FIFOs with a name of ours; others are not ours', () => {
    const fifos = ['jobs/fifo.readings.yaml', 'jobs/fifo.txt'];
    for (const name of fifos) execFileSync('mkfifo', [at(name)]);
    symlinkSync('fifo.readings.yaml', at('jobs/linked.readings.yaml'));
    symlinkSync('/dev/zero', at('jobs/zero.readings.yaml'));
    const { code, out, err } = check('jobs');
    for (const name of [...fifos, 'jobs/linked.readings.yaml', 'jobs/zero.readings.yaml']) rmSync(at(name));
    expect(code).toBe(2);
    expect(lines(err)).toEqual([
      'framewright: jobs/fifo.readings.yaml: it is not an ordinary file',
      'framewright: jobs/linked.readings.yaml: it is not an ordinary file',
      'framewright: jobs/zero.readings.yaml: this link leads out of the repository',
    ]);
    expect(out).toContain('\n1 file: ');
  });
});

describe('links', () => {
  /** What is said with a link in place; it is taken away again. */
  const linked = (name: string, to: string, ...args: string[]) => {
    symlinkSync(to, at(name));
    try {
      return check(...args);
    } finally {
      rmSync(at(name));
    }
  };

  test.each([
    ['a job', 'jobs/w-1.readings.yaml', 'jobs/w-1.readings.yaml'],
    ['a folder', 'jobs/old', 'jobs'],
    ['settings', '.framewright.yaml', 'jobs/w-1.readings.yaml'],
  ])('out of the repository: %s', (_, name, to) => {
    const { code, out, err } = linked(name, path.join(elsewhere.folder, to));
    expect({ code, err }).toEqual({
      code: 2,
      err: `framewright: ${name}: this link leads out of the repository\n`,
    });
    expect(out).toContain('\n3 files: ');
  });

  test('out of the repository: a chassis file, like a path that leads out of it', () => {
    const outside = path.join(elsewhere.folder, 'specs');
    for (const [name, to] of [
      ['specs/other.chassis.yaml', `${outside}/teal-estate.chassis.yaml`],
      ['specs/far', outside],
    ]) {
      symlinkSync(to, at(name));
      const body = name.endsWith('.yaml') ? `../${name}` : `../${name}/teal-estate.chassis.yaml`;
      mkdirSync(at('tried'));
      writeFileSync(at('tried/w-9.readings.yaml'), sound.replace('../specs/marten-hatch.chassis.yaml', body));
      const { code, out } = check('tried');
      rmSync(at('tried'), { recursive: true });
      rmSync(at(name));
      expect(code).toBe(1);
      expect(out).toContain(`${body} lies outside the repository`);
    }
  });

  test('that lead nowhere; an editor’s mark is none', () => {
    expect(linked('jobs/lost', 'nowhere')).toMatchObject({
      code: 2,
      err: 'framewright: jobs/lost: this link leads nowhere\n',
    });
    expect(linked('jobs/.#w-1192.readings.yaml', 'somebody@bench.77')).toMatchObject({ code: 0, err: '' });
  });

  test('within the repository: a file is read once, a folder under its own name', () => {
    const plain = check();
    expect(plain.code).toBe(0);
    expect(linked('jobs/again.readings.yaml', 'w-1192.readings.yaml')).toEqual(plain);
    expect(linked('jobs/round', '..')).toEqual(plain);
    expect(linked('jobs/bodies', '../specs', 'jobs').err).toBe(
      'framewright: jobs/bodies: this link leads to a folder that is not looked into here\n',
    );
    const by = linked('jobs/body.chassis.yaml', '../specs/marten-hatch.chassis.yaml', 'jobs');
    expect({ code: by.code, err: by.err }).toEqual({ code: 0, err: '' });
    expect(by.out).toContain('\n2 files: ');
  });

  test('to a repository from elsewhere change nothing', () => {
    const way = path.join(elsewhere.folder, 'way');
    symlinkSync(shop.folder, way);
    const said = framewright(['check', '.'], way);
    rmSync(way);
    expect(said).toEqual(check());
  });
});
