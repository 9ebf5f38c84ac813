// How editors save, and folders that come and go: each change is heard, and nothing goes on being watched that is gone.
import { mkdirSync, mkdtempSync, realpathSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { watched } from './watch';

const isJob = (path: string): boolean => path.endsWith('.readings.yaml');
let top = '';
let looks = 0;
let alone = new Set<string>();
let end = (): void => {};
/** Done while a call is under way. */
let during: (() => Promise<void>) | null = null;

const at = (...names: string[]): string => join(top, ...names);
const write = (...names: string[]): void => writeFileSync(at(...names), String(Math.random()));

function begun(folders: readonly string[] = [top]): () => Promise<void> {
  const looked = async (): Promise<void> => {
    looks++;
    const now = during;
    during = null;
    await now?.();
  };
  const watching = watched({ whole: folders, alone }, isJob, looked, {
    restMs: 20,
    longestMs: 300,
    againMs: 50,
  });
  if (typeof watching === 'string') throw new Error(watching);
  end = watching.end;
  return watching.look;
}

/** Something is done, and heard of. */
async function heard(act: () => void): Promise<void> {
  looks = 0;
  act();
  await vi.waitFor(() => expect(looks).toBeGreaterThan(0), { timeout: 20_000, interval: 10 });
  await rested();
}

/** Until nothing was heard for longer than an editor takes to save. */
async function rested(): Promise<void> {
  for (let seen = -1; seen !== looks; ) {
    seen = looks;
    await new Promise((resolve) => setTimeout(resolve, 120));
  }
}

const open = (): number => process.getActiveResourcesInfo().filter((name) => /FSEvent/.test(name)).length;

beforeEach(() => {
  top = realpathSync(mkdtempSync(join(tmpdir(), 'framewright-watch-')));
  [looks, alone, during] = [0, new Set(), null];
  mkdirSync(at('jobs'));
  write('jobs', 'a.readings.yaml');
});
afterEach(() => {
  end();
  rmSync(top, { recursive: true, force: true });
});

describe('a watched folder', () => {
  it('hears a file each time that it is saved, in whatever way', async () => {
    await begun()();
    const file = at('jobs', 'a.readings.yaml');
    for (let i = 0; i < 2; i++) {
      await heard(() => write('jobs', 'a.readings.yaml'));
      await heard(() => {
        write('jobs', 'a.tmp');
        renameSync(at('jobs', 'a.tmp'), file);
      });
      await heard(() => {
        rmSync(file);
        write('jobs', 'a.readings.yaml');
      });
    }
  });

  it('hears of a folder that comes filled, and of what is changed in it then', async () => {
    await begun()();
    await heard(() => {
      mkdirSync(at('x', 'y', 'z'), { recursive: true });
      write('x', 'y', 'z', 'b.readings.yaml');
    });
    await heard(() => write('x', 'y', 'z', 'b.readings.yaml'));
  });

  it('hears of a folder that goes, and of one that comes under its name', async () => {
    await begun()();
    await heard(() => renameSync(at('jobs'), at('old')));
    await heard(() => write('old', 'a.readings.yaml'));
    await heard(() => mkdirSync(at('jobs')));
    await heard(() => write('jobs', 'c.readings.yaml'));
    await heard(() => {
      rmSync(at('jobs'), { recursive: true });
      mkdirSync(at('jobs', 'jobs'), { recursive: true });
    });
    await heard(() => write('jobs', 'c.readings.yaml'));
    await heard(() => write('jobs', 'jobs', 'c.readings.yaml'));
    await heard(() => renameSync(at('jobs'), `${top}-moved`));
    await heard(() => renameSync(`${top}-moved`, at('jobs')));
    await heard(() => write('jobs', 'c.readings.yaml'));
  });

  it('comes back after it was away itself', async () => {
    await begun([at('jobs')])();
    await heard(() => renameSync(at('jobs'), at('old')));
    await heard(() => renameSync(at('old'), at('jobs')));
    await heard(() => write('jobs', 'a.readings.yaml'));
  });

  it('is silent for what does not matter', async () => {
    mkdirSync(at('node_modules'));
    await begun()();
    looks = 0;
    write('jobs', 'notes.txt');
    write('node_modules', 'b.readings.yaml');
    await rested();
    expect(looks).toBe(0);
  });

  it('is not watched any more once it is gone', async () => {
    await rested();
    const before = open();
    await begun()();
    const all = open();
    expect(all).toBeGreaterThan(before);
    await heard(() => {
      for (let i = 0; i < 40; i++) mkdirSync(at(`folder-${i}`, 'more'), { recursive: true });
    });
    expect(open()).toBeGreaterThanOrEqual(all);
    await heard(() => {
      for (let i = 0; i < 40; i++) rmSync(at(`folder-${i}`), { recursive: true });
    });
    expect(open()).toBe(all);
    end();
    await vi.waitFor(() => expect(open()).toBe(before));
  });

  it('has a call of its own for what is changed during one', async () => {
    const look = begun();
    let most = 0;
    let running = 0;
    const slow = async (): Promise<void> => {
      most = Math.max(most, ++running);
      write('jobs', 'a.readings.yaml');
      await new Promise((resolve) => setTimeout(resolve, 100));
      running--;
    };
    during = slow;
    await look();
    await vi.waitFor(() => expect(looks).toBe(2));
    await rested();
    expect(looks).toBe(2);
    expect(most).toBe(1);
  });

  it('is looked at while somebody saves without a rest', async () => {
    await begun()();
    looks = 0;
    const saving = setInterval(() => write('jobs', 'a.readings.yaml'), 5);
    try {
      await vi.waitFor(() => expect(looks).toBeGreaterThan(0), { timeout: 20_000 });
    } finally {
      clearInterval(saving);
    }
  });

  it('that cannot be watched is said', () => {
    expect(watched({ whole: [at('none')], alone }, isJob, async () => {})).toMatch(
      /none cannot be watched: /,
    );
  });
});

describe('a folder that is watched for its own files', () => {
  it('is watched from the end of the call that found it on, and looked at once more then', async () => {
    mkdirSync(at('specs', 'deep'), { recursive: true });
    during = async () => {
      alone.add(at('specs'));
    };
    await begun([at('jobs')])();
    await vi.waitFor(() => expect(looks).toBe(2));
    await rested();
    expect(looks).toBe(2);
    await heard(() => write('specs', 'b.readings.yaml'));
    looks = 0;
    write('specs', 'notes.txt');
    rmSync(at('specs', 'notes.txt'));
    write('specs', 'deep', 'b.readings.yaml');
    await rested();
    expect(looks).toBe(0);
    await heard(() => renameSync(at('specs'), at('other')));
    await heard(() => renameSync(at('other'), at('specs')));
    await heard(() => write('specs', 'b.readings.yaml'));
  });
});
