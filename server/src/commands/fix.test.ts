import { applyPatch } from 'diff';
import { describe, expect, it } from 'vitest';
import { signed } from '../findings/testing/sign-off';
import { carChassis, jobOn, measured } from '../testing/car';
import { fix } from './fix';
import { recorded, shopOf, target } from './recorded.fixture';

const job = (head: string): string =>
  jobOn(
    measured('      rail-tip-lower.L: [3012, 448, 210]'),
    `instrument: { name: arm, uncertainty: 0.2 }\n${head}`,
  );

interface Asked {
  readonly unsafe?: boolean;
  readonly dryRun?: boolean;
  /** What the disk says to what is written. */
  readonly fault?: string | null;
}

/** What was said, and the files that were written. */
async function fixed(texts: Record<string, string>, asked: Asked = {}, files = shopOf(texts)) {
  const written: Record<string, string> = {};
  const said = await recorded((output) =>
    fix(files, Object.keys(texts).map(target), {
      ...output,
      unsafe: asked.unsafe ?? false,
      dryRun: asked.dryRun ?? false,
      write: ({ path }, text) => {
        if (asked.fault === undefined || asked.fault === null) written[path] = text;
        return asked.fault ?? null;
      },
    }),
  );
  return { ...said, written };
}

describe('without --unsafe', () => {
  it('mends what changes no figure', async () => {
    const { code, printed, written } = await fixed({ 'w.readings.yaml': job('technican: rk') });
    expect({ code, written }).toEqual({ code: 0, written: { 'w.readings.yaml': job('technician: rk') } });
    expect(printed).toBe('w.readings.yaml: 1 fixed\n1 finding fixed in 1 of 1 file');
  });

  it.each(['uncertanty: 0.4', 'repeatabilty: 0.4'])(
    'leaves a key that a figure rests on: %s',
    async (key) => {
      const text = job('order: W-1').replace('uncertainty: 0.2', key);
      const { code, printed, written } = await fixed({ 'w.readings.yaml': text });
      expect({ code, written }).toEqual({ code: 0, written: {} });
      expect(printed).toBe('w.readings.yaml: 1 more with --unsafe\n0 findings fixed in 0 of 1 file');
      const mended = await fixed({ 'w.readings.yaml': text }, { unsafe: true });
      expect(mended.written['w.readings.yaml']).toContain(
        key.replace('anty', 'ainty').replace('abilty', 'ability'),
      );
    },
  );

  it('leaves a limit of the reference data, mended beside it what is none', async () => {
    const text = carChassis.replace(/^(parts:)/m, 'tolernce: 9\n$1');
    expect(text).not.toBe(carChassis);
    expect((await fixed({ 'car.chassis.yaml': text })).written).toEqual({});
    expect((await fixed({ 'car.chassis.yaml': text }, { unsafe: true })).written).not.toEqual({});
  });

  it('leaves the name of a point, whatever is near', async () => {
    const text = job('order: W-1').replace('rail-tip-lower.L', 'rail-tip-lowr.L');
    expect((await fixed({ 'w.readings.yaml': text })).written).toEqual({});
    const { written } = await fixed({ 'w.readings.yaml': text }, { unsafe: true });
    expect(written).toEqual({ 'w.readings.yaml': job('order: W-1') });
  });

  it('leaves a severity of the settings: a mistyped rule is not silenced unasked', async () => {
    const texts = { '.framewright.yaml': 'framewright: settings/1\nrules:\n  reading/ordr: off\n' };
    expect((await fixed(texts)).written).toEqual({});
    expect((await fixed(texts, { unsafe: true })).written['.framewright.yaml']).toContain(
      'reading/order: off',
    );
  });
});

it('a finding that was silenced, and one with several fixes, stay for a person', async () => {
  const sideless = job('order: W-1').replace('rail-tip-lower.L', 'rail-tip-lower');
  const { written, printed } = await fixed({ 'w.readings.yaml': sideless }, { unsafe: true });
  expect({ written, printed }).toEqual({ written: {}, printed: '0 findings fixed in 0 of 1 file' });
});

it('in a signed job nothing is mended that changes what it means', async () => {
  const text = signed(measured('      rail-tip-lowr.L: [3012, 448, 210]'));
  expect(text).toContain('sign-off:');
  expect((await fixed({ 'w.readings.yaml': text }, { unsafe: true })).written).toEqual({});
});

it('two slips of one key are for a person to choose between', async () => {
  const text = job('technican: rk\ntechnicain: jm');
  expect((await fixed({ 'w.readings.yaml': text })).written).toEqual({});
});

it('--dry-run prints a difference that makes the same file, and writes nothing', async () => {
  const text = job('technican: rk').replaceAll('\n', '\r\n');
  const { code, printed, complained, written } = await fixed({ 'w.readings.yaml': text }, { dryRun: true });
  expect({ code, written }).toEqual({ code: 0, written: {} });
  expect(printed).toMatch(/^--- a\/w\.readings\.yaml\n\+\+\+ b\/w\.readings\.yaml\n@@ /);
  expect(applyPatch(text, printed)).toBe(text.replace('technican', 'technician'));
  expect(complained).toBe('w.readings.yaml: 1 fixed\n1 finding would be fixed in 1 of 1 file');
});

it.each([
  ['what is mended', 'technican: rk', 0],
  ['nothing to mend', 'technician: rk', 0],
  ['bytes that are no text', 'technican: r\ufffd', 2],
])('exits the same whether it is written or only printed: %s', async (_, head, code) => {
  const texts = { 'w.readings.yaml': job(head) };
  expect((await fixed(texts)).code).toBe(code);
  const dry = await fixed(texts, { dryRun: true });
  expect(dry).toMatchObject({ code, written: {} });
  expect(dry.printed.includes('@@')).toBe(head === 'technican: rk');
});

describe('what cannot be done is said, with exit code 2', () => {
  const texts = { 'w.readings.yaml': job('technican: rk') };

  it('a file that cannot be written', async () => {
    const { code, complained, printed } = await fixed(texts, {
      fault: 'w.readings.yaml cannot be written: no',
    });
    expect([code, complained, printed]).toEqual([
      2,
      'framewright: w.readings.yaml cannot be written: no',
      '0 findings fixed in 0 of 1 file',
    ]);
  });

  it('one that was changed meanwhile', async () => {
    const shop = shopOf(texts);
    let reads = 0;
    const read: typeof shop.read = async (uri) => {
      const found = await shop.read(uri);
      const isLate = uri.endsWith('w.readings.yaml') && ++reads > 3;
      return isLate && found.kind === 'text' ? { kind: 'text', text: `${found.text}# typed\n` } : found;
    };
    const late = await fixed(texts, {}, { ...shop, read });
    expect([late.code, late.written]).toEqual([2, {}]);
    expect(late.complained).toContain('left as it is: somebody changed it');
  });

  it('one whose bytes are no text', async () => {
    const { code, complained, written } = await fixed({ 'w.readings.yaml': job('technican: r\ufffd') });
    expect([code, written]).toEqual([2, {}]);
    expect(complained).toContain('it holds bytes that are no text');
  });

  it('one that is not there', async () => {
    expect(await fixed({}, {}, shopOf({}))).toMatchObject({ code: 0 });
    const run = await recorded((output) =>
      fix(shopOf({}), [target('gone.readings.yaml')], {
        ...output,
        unsafe: false,
        dryRun: false,
        write: () => null,
      }),
    );
    expect(run.code).toBe(2);
  });
});
