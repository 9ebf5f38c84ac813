import type { StandingAnswer } from '@framewright/schemas/wire';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { carChassis, jobOn, measured } from '../testing/car';
import { parseText } from '../text/yaml/parse';
import { bodyUri, Typist, typedUri } from './testing/typist';

// the clock of the session: nobody waits for it
beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'Date'] });
});
afterEach(() => {
  vi.useRealTimers();
});

const typistOf = () => new Typist({ [bodyUri]: carChassis }, (ms) => vi.advanceTimersByTimeAsync(ms));

/** Where the chassis of the test has a point, with a damage that grows with each row. */
function readingOf(row: string, nth: number): string {
  const id = row.split(':')[0].trim();
  const stated = new RegExp(`^ +${id.replace('.', '(?:\\.')})?: .*?\\[([^\\]]*)\\]`, 'm').exec(carChassis);
  const numbers = (stated?.[1] ?? '').split(',').map(Number);
  if (id.endsWith('.R')) numbers[1] *= -1;
  numbers[1] += nth > 7 ? nth : 0.1 * nth;
  return `[${numbers.map((each) => each.toFixed(1)).join(', ')}]`;
}

describe('typing log', () => {
  it('12 readings typed at 120 ms a key: each row is judged when it is left, and the status changes once a row', async () => {
    const typist = typistOf();
    await typist.opens(jobOn('  - measure: as received\n    readings:'), 'readings:');
    const before = typist.told.length;
    const wrong: string[] = [];
    await typist.enter();
    for (let nth = 0; nth < 12; nth++) {
      const reading = readingOf(typist.row, nth);
      const hints = await typist.hints();
      for (const key of reading) {
        await typist.key(key);
        for (const rule of typist.found('in the row')) wrong.push(`${typist.row.trim()} is told of: ${rule}`);
        const now = await typist.hints();
        for (const [id, hint] of [...hints, ...now])
          if (now.get(id) !== hints.get(id)) wrong.push(`${typist.row.trim()}: at ${id} now ${hint}`);
      }
      expect(typist.row).toContain(reading);
      await typist.enter();
    }
    await typist.waits(1000);
    expect(wrong).toEqual([]);
    expect([...(await typist.hints()).keys()]).toHaveLength(12);
    // as each row makes a difference: once each
    expect(typist.told.length - before).toBe(12);
  }, 60_000);
});

describe('a row that is typed in', () => {
  const row = 'latch: [3050.0, 0.0, 780.0]';
  const job = jobOn(measured(`      strut-top.L: [2750, 580, 900]\n      ${row}`));
  const opened = async (cursor: string, tellsCursor = true): Promise<Typist> => {
    const typist = typistOf();
    await typist.opens(job, cursor, tellsCursor);
    return typist;
  };
  it('is told of at each key to an editor that tells of no cursor', async () => {
    const typist = await opened('latch: [3050.0, 0', false);
    await typist.key(',');
    expect(typist.found('in the row')).toEqual(['text/wrong-type']);
    expect((await typist.hints()).get('strut-top.L')).toContain('provisional');
  });

  it('of a distance keeps the rest as it was, too, and is judged at once when the cursor leaves it', async () => {
    const typist = typistOf();
    const distance = '      - [latch, strut-top.L, 650]';
    await typist.opens(`${job.trimEnd()}\n    spans:\n${distance}\n`, 'strut-top.L, 650');
    const [hints, elsewhere] = [await typist.hints(), typist.found('elsewhere')];
    expect(hints.size).toBeGreaterThan(1);
    for (const key of ['.', 'x']) {
      await typist.key(key);
      await typist.waits(5000);
      expect(typist.found('in the row')).toEqual([]);
      expect(typist.found('elsewhere')).toEqual(elsewhere);
      expect((await typist.hints()).get('strut-top.L')).toBe(hints.get('strut-top.L'));
    }
    await typist.tellsLine(0);
    await typist.waits(0);
    expect(typist.found('in the row')).toEqual(['text/wrong-type']);
  });

  it('keeps the rest as it was, and is judged at once when the cursor leaves it', async () => {
    const typist = await opened('latch: [3050.0, 0');
    const [hints, elsewhere] = [await typist.hints(), typist.found('elsewhere')];
    expect(hints.get('latch')).toBeDefined();
    await typist.key(',');
    await typist.waits(5000);
    expect(typist.found('in the row')).toEqual([]);
    expect(typist.found('elsewhere')).toEqual(elsewhere);
    expect(await typist.hints()).toEqual(new Map([...hints].filter(([id]) => id !== 'latch')));
    await typist.tellsLine(0);
    await typist.waits(0);
    expect(typist.found('in the row')).toEqual(['text/wrong-type']);
    expect((await typist.hints()).get('strut-top.L')).toContain('provisional');
  });

  it('is judged a while after its last number, and not while that is half there', async () => {
    const typist = await opened('latch: [3050.0, 0');
    for (const key of ['1', '2']) await typist.key(key);
    expect(typist.row).toContain('012.0');
    expect(typist.found('in the row')).toEqual([]);
    await typist.waits(1000);
    expect(typist.found('in the row')).toEqual([]);
    await typist.waits(1000);
    expect(typist.found('in the row')).toEqual(['reading/outside']);
    await typist.erases();
    expect(typist.found('in the row')).toEqual([]);
  });

  it('is judged soon behind its bracket', async () => {
    const typist = await opened('latch: [3050.0, 0.0, 780.0');
    await typist.goes('latch: [3050.0, 0.0, 780.0]');
    await typist.erases();
    await typist.waits(2000);
    expect(typist.found('in the row')).toEqual([]);
    await typist.key(']');
    expect((await typist.hints()).has('latch')).toBe(false);
    await typist.waits(500);
    expect((await typist.hints()).has('latch')).toBe(true);
  });

  it('is judged where the editor falls silent, and where it says so', async () => {
    const typist = await opened('latch: [3050.0, 0');
    await typist.key(',');
    await typist.waits(59_000);
    expect(typist.found('in the row')).toEqual([]);
    await typist.waits(2000);
    expect(typist.found('in the row')).toEqual(['text/wrong-type']);
    await typist.key(',');
    expect(typist.found('in the row')).toEqual([]);
    // as on a save
    await typist.tellsLine(null);
    await typist.waits(0);
    expect(typist.found('in the row')).toEqual(['text/syntax']);
  });

  it('is what the sign-off and every edit see, whatever is shown', async () => {
    const typist = await opened('latch: [3050.0, 0.0, 780.0]');
    await typist.erases();
    expect(typist.found('in the row')).toEqual([]);
    const standing = () => typist.asks<StandingAnswer>('framewright/standing', { uri: typedUri });
    expect(JSON.stringify((await standing()).against)).toContain('the text has errors');
    // what a broken text is offered, and nothing else
    expect(await typist.offered()).toEqual(['Mark latch unreachable']);
    const record = () => typist.asks<{ html: string }>('framewright/report', { uri: typedUri });
    const { html } = await record();
    await typist.tellsLine(null);
    await typist.waits(0);
    expect(html).toBe((await record()).html);
    expect(html).not.toContain('780');
  });

  it('is shown as it stands again in a file that was closed and opened', async () => {
    const typist = await opened('latch: [3050.0, 0');
    await typist.key(',');
    await typist.closes();
    await typist.opensAgain();
    expect(typist.found('in the row')).toEqual(['text/wrong-type']);
  });

  it('is still none when its chassis file changes meanwhile', async () => {
    const typist = await opened('latch: [3050.0, 0');
    await typist.key(',');
    const wider = carChassis.replace('build: 0.1', 'build: 0.2');
    expect(parseText(wider).problems).toEqual([]);
    await typist.opensOther(bodyUri, 'framewright-chassis', wider);
    await typist.waits(1000);
    expect(typist.found('in the row')).toEqual([]);
    await typist.tellsLine(0);
    await typist.waits(0);
    expect(typist.found('in the row')).toEqual(['text/wrong-type']);
  });
});
