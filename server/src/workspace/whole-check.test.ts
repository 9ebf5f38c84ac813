import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { memoryFiles } from './testing/memory-files';
import { WholeCheck } from './whole-check';
import { type Analysis, Workspace } from './workspace';

const root = 'file:///shop';
const chassis = (more = '') =>
  `framewright: chassis/1\nvehicle: Teal\n${more}source: { kind: published }\npoints:\n  latch: { centre: [2700, 0, 780] }\n`;
const job = (body: string) =>
  `framewright: readings/1\nchassis: ../specs/${body}.chassis.yaml\ntimeline:\n  - measure: as received\n    readings: { latch: [1, 2, 3] }\n`;
const specs = (name: string) => `${root}/specs/${name}.chassis.yaml`;
const jobs = (name: string) => `${root}/jobs/${name}.readings.yaml`;
const settings = `${root}/.framewright.yaml`;

const shop = (): Record<string, string> => ({
  [specs('teal')]: chassis(),
  [specs('teal-long')]: chassis('extends: ./teal.chassis.yaml\n'),
  [specs('marten')]: chassis(),
  [jobs('on-teal')]: job('teal'),
  [jobs('on-teal-long')]: job('teal-long'),
  [jobs('on-marten')]: job('marten'),
});

/** A check whose steps are counted: what it looked at, what it was told is gone. */
function checkOf(
  texts: Record<string, string>,
  turn: () => Promise<void> = async () => {},
  whileTold: (uri: string) => void = () => {},
) {
  const files = memoryFiles(texts, `${root}/`);
  const open = new Workspace(files);
  const seen: string[] = [];
  const gone: string[] = [];
  const failures: unknown[] = [];
  const check = new WholeCheck<string>(open, files, {
    turn,
    looked: async (uri, found) => {
      seen.push(uri);
      whileTold(uri);
      return 'findings' in found ? found.kind : found.message;
    },
    listed: () => {},
    found: () => {},
    unseen: () => {},
    gone: (uri) => gone.push(uri),
    progress: () => {},
    failed: (uri, error) => failures.push([uri, error]),
  });
  const atRest = async () => {
    do await new Promise((resolve) => setImmediate(resolve));
    while (check.isRunning);
    expect(failures).toEqual([]);
  };
  /** What is looked at because of something. */
  const after = async (act: () => void) => {
    await atRest();
    seen.length = 0;
    gone.length = 0;
    act();
    await atRest();
    return { seen: [...seen].sort(), gone: [...gone].sort() };
  };
  const edit = (uri: string, text: string) => {
    open.setOpen(uri, text);
    check.edited(uri, text);
  };
  const close = (uri: string, text: string) => {
    open.setClosed(uri);
    return check.closed(uri, text);
  };
  return { check, open, after, edit, close, atRest, files };
}

const started = async (texts: Record<string, string>) => {
  const all = checkOf(texts);
  const first = await all.after(() => all.check.lookAtAll([root], true));
  return { ...all, first };
};

describe('a check of all files', () => {
  it('looks at each closed file once and keeps a line of it and what it was judged by', async () => {
    const texts = shop();
    const { check, first } = await started(texts);
    expect(first.seen).toEqual(Object.keys(texts).sort());
    expect(check.of(jobs('on-teal-long'))).toMatchObject({
      line: 'readings',
      dependencies: [specs('teal-long'), specs('teal')],
    });
    expect(Object.keys(check.of(jobs('on-teal'))!)).not.toContain('text');
  });

  it('leaves out folders that the settings ignore, until they no longer do', async () => {
    const texts: Record<string, string> = {
      ...shop(),
      [`${root}/old/w.readings.yaml`]: job('teal'),
      [settings]: 'framewright: settings/1\nignore: [old]\n',
    };
    const { check, after, first } = await started(texts);
    expect(first.seen).not.toContain(`${root}/old/w.readings.yaml`);
    texts[settings] = 'framewright: settings/1\n';
    const all = await after(() => check.changed(settings, 'changed'));
    expect(all.seen).toEqual(Object.keys(texts).sort());
    texts[settings] = 'framewright: settings/1\nignore: [jobs]\n';
    const fewer = await after(() => check.changed(settings, 'changed'));
    expect(fewer.gone).toEqual(['on-marten', 'on-teal-long', 'on-teal'].map(jobs));
  });

  it('lists only, where no more is wanted', async () => {
    const { check, after } = checkOf(shop());
    expect((await after(() => check.lookAtAll([root], false))).seen).toEqual([]);
    expect([...check.known()]).toHaveLength(6);
    expect([...check.known()].every(({ line }) => line === null)).toBe(true);
  });

  it('tells what there is as soon as it is listed, not before', async () => {
    const { check } = checkOf(shop());
    let isListed = false;
    const listed = check.listed().then(() => {
      isListed = true;
    });
    await new Promise((resolve) => setImmediate(resolve));
    expect(isListed).toBe(false);
    check.lookAtAll([root], true);
    await listed;
    expect([...check.known()]).toHaveLength(6);
  });

  it('spells files as the editor spells their folder', async () => {
    const files = memoryFiles({ 'file:///C:/shop/jobs/w.readings.yaml': job('teal') });
    const open = new Workspace(files);
    const seen: string[] = [];
    const check = new WholeCheck<string>(open, files, {
      turn: async () => {},
      looked: async (uri) => {
        seen.push(uri);
        return null;
      },
      listed: () => {},
      found: () => {},
      unseen: () => {},
      gone: () => {},
      progress: () => {},
      failed: () => {},
    });
    check.lookAtAll(['file:///c%3A/shop'], true);
    await check.listed();
    while (check.isRunning) await new Promise((resolve) => setImmediate(resolve));
    expect(seen).toEqual(['file:///c%3A/shop/jobs/w.readings.yaml']);
  });

  it('counts a folder inside another one once', async () => {
    const { check, after } = checkOf(shop());
    const { seen } = await after(() => check.lookAtAll([`${root}/jobs`, root], true));
    expect(seen).toHaveLength(6);
  });
});

describe('a change', () => {
  it('of an open chassis file is felt by the closed files made from it, and by no other', async () => {
    const { after, edit } = await started(shop());
    expect(await after(() => edit(specs('teal'), chassis()))).toEqual({ seen: [], gone: [] });
    const { seen } = await after(() => edit(specs('teal'), chassis('build: 2\n')));
    expect(seen).toEqual([jobs('on-teal-long'), jobs('on-teal'), specs('teal-long')]);
  });

  it('of an open job is felt by nothing that is closed', async () => {
    const { after, edit, check } = await started(shop());
    expect((await after(() => edit(jobs('on-teal'), job('marten')))).seen).toEqual([]);
    expect(check.of(jobs('on-teal'))?.listed).toBe(true);
  });

  it('that was never saved is taken back when the file is closed', async () => {
    const { after, edit, close } = await started(shop());
    const text = chassis('build: 2\n');
    await after(() => {
      edit(specs('marten'), chassis());
      edit(specs('marten'), text);
    });
    expect((await after(() => close(specs('marten'), text))).seen).toEqual([
      jobs('on-marten'),
      specs('marten'),
    ]);
  });

  it('on the disk makes the file itself due, new ones too, and what had waited for it', async () => {
    const texts = shop();
    delete texts[specs('marten')];
    const { check, after } = await started(texts);
    texts[specs('marten')] = chassis();
    texts[jobs('new')] = job('marten');
    const { seen } = await after(() => {
      check.changed(specs('marten'), 'created');
      check.changed(jobs('new'), 'created');
      check.changed(jobs('on-teal'), 'changed');
    });
    expect(seen).toEqual([jobs('new'), jobs('on-marten'), jobs('on-teal'), specs('marten')]);
  });

  it('that deletes a file forgets it, and looks at what was made from it', async () => {
    const texts = shop();
    const { check, after } = await started(texts);
    delete texts[specs('marten')];
    const told = await after(() => check.changed(specs('marten'), 'deleted'));
    expect(told).toEqual({ seen: [jobs('on-marten')], gone: [specs('marten')] });
    delete texts[jobs('on-teal')];
    expect((await after(() => check.listAgain())).gone).toEqual([jobs('on-teal')]);
  });

  it('while a file is being judged puts away what was concluded from the older text', async () => {
    const texts = shop();
    let change = () => {};
    let turns = 0;
    // amid the fifth step of the whole, whatever file that is of
    const all = checkOf(texts, async () => {
      if (++turns === 5) change();
    });
    const lines: string[] = [];
    change = () => {
      lines.push(...[...all.check.known()].flatMap(({ line }) => line ?? []));
      all.edit(specs('marten'), chassis('build: 2\n'));
      all.edit(specs('marten'), chassis('build: 3\n'));
    };
    const { seen } = await all.after(() => all.check.lookAtAll([root], true));
    expect(turns).toBeGreaterThan(5);
    expect(lines.length).toBeLessThan(6);
    // each closed file in the end, the open one not at all or once before it was opened
    expect([...new Set(seen)].filter((uri) => uri !== specs('marten'))).toEqual(
      Object.keys(texts)
        .filter((uri) => uri !== specs('marten'))
        .sort(),
    );
    expect(
      [...all.check.known()].filter(({ uri, line }) => uri !== specs('marten') && line === null),
    ).toEqual([]);
  });
});

describe('a change while a file is told for the first time', () => {
  it('is felt by it, though nobody knew yet what it was judged by', async () => {
    let isFirst = true;
    const all = checkOf(shop(), undefined, (uri) => {
      if (uri !== jobs('on-marten') || !isFirst) return;
      isFirst = false;
      all.edit(specs('marten'), chassis());
      all.edit(specs('marten'), chassis('build: 2\n'));
    });
    const { seen } = await all.after(() => all.check.lookAtAll([root], true));
    expect(seen.filter((uri) => uri === jobs('on-marten'))).toHaveLength(2);
    expect(seen.filter((uri) => uri === jobs('on-teal'))).toHaveLength(1);
  });
});

describe('a closed file', () => {
  it('is looked at first, as it stands on the disk', async () => {
    const { after, edit, close } = await started(shop());
    await after(() => edit(jobs('on-teal'), 'framewright: readings/1\n'));
    let isLookedAt = false;
    const { seen } = await after(() => {
      isLookedAt = close(jobs('on-teal'), 'framewright: readings/1\n');
    });
    expect(isLookedAt).toBe(true);
    expect(seen).toEqual([jobs('on-teal')]);
  });

  it('outside of the folders is known while it is open', async () => {
    const { check, after, edit, close } = await started(shop());
    const other = 'file:///elsewhere/w.readings.yaml';
    await after(() => edit(other, job('teal')));
    expect(check.of(other)).toMatchObject({ listed: false, kind: 'readings' });
    const told = await after(() => expect(close(other, job('teal'))).toBe(false));
    expect(told).toEqual({ seen: [], gone: [other] });
    expect(check.of(other)).toBeUndefined();
  });
});

describe('a check that is stopped', () => {
  it('takes back what it said of files that a change has made due', async () => {
    const texts = shop();
    const all = checkOf(texts);
    await all.after(() => all.check.lookAtAll([root], true));
    expect([...all.check.known()].every(({ line }) => line !== null)).toBe(true);
    await all.after(() => {
      all.check.lookAtAll([root], true);
      all.check.stop();
    });
    expect([...all.check.known()].every(({ line }) => line === null)).toBe(true);
  });

  it('leaves the rest as it is, and goes on from a later change', async () => {
    const texts = shop();
    let left = 4;
    const all = checkOf(texts, async () => {
      if (--left === 0) all.check.stop();
    });
    await all.after(() => all.check.lookAtAll([root], true));
    const unseen = [...all.check.known()].filter(({ line }) => line === null);
    expect(unseen.length).toBeGreaterThan(0);
    const { seen } = await all.after(() => all.check.changed(unseen[0].uri, 'changed'));
    expect(seen).toEqual([unseen[0].uri]);
  });
});

describe('memory', () => {
  it('holds no analysis of a closed file when all were looked at', async () => {
    const texts = shop();
    for (let i = 0; i < 300; i++) texts[jobs(`w-${i}`)] = job('teal');
    const files = memoryFiles(texts, `${root}/`);
    const judged: WeakRef<Analysis>[] = [];
    const check = new WholeCheck<string>(new Workspace(files), files, {
      turn: async () => {},
      looked: async (_, found) => {
        if ('findings' in found) judged.push(new WeakRef(found));
        return null;
      },
      listed: () => {},
      found: () => {},
      unseen: () => {},
      gone: () => {},
      progress: () => {},
      failed: (_, error) => {
        throw error;
      },
    });
    check.lookAtAll([root], true);
    while (judged.length < 306) await new Promise((resolve) => setImmediate(resolve));
    const alive = () => judged.filter((each) => each.deref() !== undefined).length;
    setFlagsFromString('--expose-gc');
    const collect = runInNewContext('gc') as () => void;
    // what was looked up in a turn lives to its end, and when the collector lets the last one go is its own affair
    for (let turn = 0; turn < 100 && alive() > 0; turn++) {
      await new Promise((resolve) => setImmediate(resolve));
      collect();
    }
    expect(alive()).toBe(0);
    expect([...check.known()]).toHaveLength(306);
  });
});
