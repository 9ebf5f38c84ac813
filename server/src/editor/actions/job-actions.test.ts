import { describe, expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { carChassis, jobOn, measured, soundBase } from '../../testing/car';
import { after, before, chosenAt, difference, offeredAt, sampleFiles, today } from '../testing/asked';

const shop = (job: string) => ({ 'car.chassis.yaml': carChassis, 'w.readings.yaml': job });
const name = 'w.readings.yaml';
const tip = `      rail-tip-lower.L: [3012, 448, 210]   # by the stud
      rail-tip-lower.R: [3012, -448, 210]
      latch: unreachable`;
const job = jobOn(measured(tip));

describe('Insert next measure', () => {
  const title = 'Insert next measure';

  it('goes to the end of the timeline, with a commented row for each point in the order of the last stage', async () => {
    const text = jobOn(`${measured(tip)}\n  - pull: rail out\n    part: front-rail.L\n  - release: all`);
    const { added, gone } = difference(text, await chosenAt(shop(before(text, 'as received')), name, title));
    expect(gone).toEqual([]);
    expect(added[0]).toBe('  - measure: after first pull\n');
    expect(added[1]).toBe(`    at: ${today}\n`);
    const rows = added.slice(3).map((line) => /^ {6}# ([\w.-]+): *\[ , , \]\n$/.exec(line)?.[1]);
    expect(rows.slice(0, 2)).toEqual(['floor-front.L', 'floor-front.R']);
    expect(rows).toContain('latch');
    // on the sheet, on a part that was worked on, not read yet
    expect(rows).toContain('rail-tip-upper.L');
    // of a part that nobody touched
    expect(rows).not.toContain('strut-top.L');
    expect(new Set(rows).size).toBe(rows.length);
  });

  it('is no mistake and holds nothing back; a row that is typed is judged', async () => {
    const text = await chosenAt(shop(before(job, 'as received')), name, title);
    const empty = await analysed(shop(text), name);
    expect(empty.findings.filter(({ rule }) => /^(text|name)\//.test(rule))).toEqual([]);
    const typed = text.replace(/# (rail-tip-lower\.L: *)\[ , , \]/, '$1[3012, 468, 210]');
    expect(typed).not.toBe(text);
    const analysis = await analysed(shop(typed), name);
    expect(analysis.kind === 'readings' && analysis.inspection?.heldBack).toBe(false);
    expect(analysis.findings.map(({ rule }) => rule)).toContain('reading/outside');
  });

  it('is not offered on a signed job, nor on one of distances alone', async () => {
    for (const path of ['jobs/w-1174-finished.readings.yaml', 'jobs/w-1213-tram-only.readings.yaml']) {
      const files = sampleFiles(path);
      const offered = await offeredAt({ ...files, [path]: before(files[path], 'timeline:') }, path);
      expect([...offered.keys()]).not.toContain(title);
    }
  });
});

describe('Mark unreachable', () => {
  it('puts the figures of a row into a comment, before the one that stands there', async () => {
    const files = shop(before(job, '3012, 448'));
    const now = await chosenAt(files, name, 'Mark rail-tip-lower.L unreachable');
    expect(now).toBe(job.replace('[3012, 448, 210]   # by', 'unreachable   # was [3012, 448, 210]; by'));
  });

  it('fills a row of nothing, and is not offered where it stands', async () => {
    const empty = job.replace('[3012, -448, 210]', '').replace(/R: $/m, 'R:');
    const now = await chosenAt(
      shop(before(empty, 'rail-tip-lower.R')),
      name,
      'Mark rail-tip-lower.R unreachable',
    );
    expect(now).toContain('rail-tip-lower.R: unreachable\n');
    expect((await analysed(shop(now), name)).findings.map(({ rule }) => rule)).not.toContain(
      'text/wrong-type',
    );
    const offered = [...(await offeredAt(shop(before(job, 'latch')), name)).keys()];
    expect(offered.filter((each) => each.startsWith('Mark'))).toEqual([]);
  });

  it('marks a distance', async () => {
    const text = job.replace(/\n$/, '\n    spans:\n      - [rail-tip-lower.L, strut-top.R, 1400.0]\n');
    const files = shop(before(text, 'strut-top.R'));
    const now = await chosenAt(files, name, 'Mark rail-tip-lower.L to strut-top.R unreachable');
    expect(now).toBe(text.replace('1400.0]', 'unreachable]   # was 1400.0'));
  });
});

describe('Swap sides', () => {
  const title = 'Swap rail-tip-lower.L and rail-tip-lower.R';

  it('swaps two ids and nothing else; twice is as before', async () => {
    const once = await chosenAt(shop(before(job, 'rail-tip-lower.L')), name, title);
    expect(once).toContain('rail-tip-lower.R: [3012, 448, 210]   # by');
    expect(once).toContain('rail-tip-lower.L: [3012, -448, 210]\n');
    const swap = 'Swap rail-tip-lower.R and rail-tip-lower.L';
    expect(await chosenAt(shop(before(once, 'rail-tip-lower.R')), name, swap)).toBe(job);
  });

  it('gives a single id its other side', async () => {
    const text = jobOn(measured('      rail-tip-upper.R: [3012, 452, 352]'));
    const one = 'Swap sides: rail-tip-upper.R becomes rail-tip-upper.L';
    const now = await chosenAt(shop(before(text, 'rail-tip-upper.R')), name, one);
    expect(now).toBe(text.replace('rail-tip-upper.R', 'rail-tip-upper.L'));
  });

  it('mends a whole measure that was read with the sides exchanged', async () => {
    const exchanged = job.replace(/\.([LR]):/g, (_, side) => (side === 'L' ? '.R:' : '.L:'));
    const whole = 'Swap left and right in the whole measure';
    expect(await chosenAt(shop(before(exchanged, 'as received')), name, whole)).toBe(job);
  });

  it('is not offered while a row stands twice', async () => {
    const twice = jobOn(measured(`${tip}\n      rail-tip-lower.R: [3012, -448, 210]`));
    const offered = [...(await offeredAt(shop(before(twice, 'rail-tip-lower.L')), name)).keys()];
    expect(offered.filter((each) => each.startsWith('Swap'))).toEqual([]);
    // nor in another measure: the text is broken
    const later = twice.replace(
      /\n$/,
      '\n  - measure: again\n    readings: { rail-tip-upper.L: [3012, 452, 352] }\n',
    );
    const there = [...(await offeredAt(shop(before(later, 'rail-tip-upper.L')), name)).keys()];
    expect(there.filter((each) => each.startsWith('Swap'))).toEqual([]);
  });
});

describe('Take these control points as the base', () => {
  const prefix = 'Take these control points as the base: ';

  it('writes the base that was found, above the instrument, and then is not offered again', async () => {
    const files = shop(before(job, 'as received'));
    const [title] = [...(await offeredAt(files, name)).keys()].filter((each) => each.startsWith(prefix));
    const now = await chosenAt(files, name, title);
    const { added } = difference(job, now);
    expect(added).toHaveLength(1);
    expect(added[0]).toMatch(/^base: \[(?=.*floor-front\.L)(?=.*tunnel-front\.R)([\w.-]+(, )?){8}\]\n$/);
    const analysis = await analysed(shop(now), name);
    expect(analysis.kind === 'readings' && analysis.job.base.kind).toBe('ids');
    const again = [...(await offeredAt(shop(before(now, 'as received')), name)).keys()];
    expect(again.filter((each) => each.startsWith(prefix))).toEqual([]);
  });

  it('offers each story of an ambiguous stage as a fix, none before the other; either settles it', async () => {
    const front = { x: [1200, 1480, 905], dy: 14 };
    const rows = soundBase.replace(/\[(-?\d+), (-?\d+), (\d+)\]/g, (all, x, y, z) =>
      front.x.slice(0, 2).includes(Number(x)) ? `[${x}, ${Number(y) + front.dy}, ${z}]` : all,
    );
    const text = jobOn(`  - measure: as received\n    readings:\n${rows}`);
    const analysis = await analysed(shop(text), name);
    const ambiguous = analysis.findings.some(({ rule }) => rule === 'base/ambiguous');
    expect(ambiguous).toBe(true);
    const offered = [...(await offeredAt(shop(before(text, 'measure')), name))].filter(([each]) =>
      each.startsWith(prefix),
    );
    expect(offered.length).toBeGreaterThan(1);
    for (const [, action] of offered) {
      expect(action).toMatchObject({ kind: 'quickfix', preferred: false, mends: { rule: 'base/ambiguous' } });
      const { findings } = await analysed(shop(after(text, action)), name);
      expect(findings.map(({ rule }) => rule)).not.toContain('base/ambiguous');
    }
  });
});

describe('Silence with a reason', () => {
  const outside = jobOn(measured('      rail-tip-lower.L: [3012, 468, 210]'));
  const title = 'Silence reading/outside on this line, with a reason';

  it('asks, writes the reason behind the line, and the finding is then ignored for it', async () => {
    const offered = await offeredAt(shop(before(outside, 'rail-tip-lower.L')), name);
    expect(offered.get(title)?.ask).toMatchObject({
      of: 'reason',
      question: expect.stringContaining('reading/outside'),
    });
    const now = after(outside, offered.get(title)!, 'slotted: adjusts "5"');
    expect(now).toContain('210]   # framewright-ignore reading/outside: slotted: adjusts "5"\n');
    const { findings } = await analysed(shop(now), name);
    expect(findings.find(({ rule }) => rule === 'reading/outside')?.ignored).toBe('slotted: adjusts "5"');
  });

  it('stands on the line above where there is a comment already', async () => {
    const commented = outside.replace('468, 210]', '468, 210] # bent stud');
    const now = await chosenAt(shop(before(commented, 'rail-tip-lower.L')), name, title, 'known');
    expect(now).toContain('\n      # framewright-ignore reading/outside: known\n      rail-tip-lower.L');
    const { findings } = await analysed(shop(now), name);
    expect(findings.find(({ rule }) => rule === 'reading/outside')?.ignored).toBe('known');
  });

  it('without a reason, where nobody can be asked, it silences nothing and is reported', async () => {
    const now = await chosenAt(shop(before(outside, 'rail-tip-lower.L')), name, title, null);
    expect(now).not.toMatch(/\p{Co}/u);
    const { findings } = await analysed(shop(now), name);
    expect(findings.find(({ rule }) => rule === 'reading/outside')?.ignored).toBeNull();
    expect(findings.map(({ rule }) => rule)).toContain('settings/unused-ignore');
  });

  it('is not offered for what guards work or sign-off, nor for text that cannot be read', async () => {
    for (const path of [
      'jobs/w-1212-procedure-mistakes.readings.yaml',
      'jobs/w-1210-typing-mistakes.readings.yaml',
    ]) {
      const files = sampleFiles(path);
      const analysis = await analysed(files, path);
      for (const { range } of analysis.findings) {
        const marked = `${files[path].slice(0, range.start)}$0${files[path].slice(range.start)}`;
        const titles = [...(await offeredAt({ ...files, [path]: marked }, path)).keys()].join('\n');
        expect(titles).not.toMatch(
          /Silence (text|sign-off|procedure\/(never|kinked|section|heat)|base\/ambiguous)/,
        );
      }
    }
  });
});
