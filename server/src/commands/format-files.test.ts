import { describe, expect, it } from 'vitest';
import { jobOn, measured } from '../testing/car';
import { formatFiles } from './format-files';
import { recorded, shopOf, target } from './recorded.fixture';

const crooked = jobOn(measured('      latch:   [3050, 0, 780]\n      rail-tip-lower.L: [3012,448, 210]  '));

async function formatted(texts: Record<string, string>, check = false, fault: string | null = null) {
  const written: Record<string, string> = {};
  const said = await recorded((output) =>
    formatFiles(shopOf(texts), Object.keys(texts).map(target), {
      ...output,
      check,
      write: ({ path }, text) => {
        if (fault === null) written[path] = text;
        return fault;
      },
    }),
  );
  return { ...said, written };
}

it('formats what is crooked, and the same again changes nothing', async () => {
  const { code, printed, written } = await formatted({ 'w.readings.yaml': crooked });
  expect({ code, printed }).toEqual({ code: 0, printed: 'w.readings.yaml\n1 of 1 file formatted' });
  expect(written['w.readings.yaml']).toContain(
    '\n      latch:            [3050,    0, 780]\n      rail-tip-lower.L: [3012,  448, 210]\n',
  );
  expect(await formatted(written)).toEqual({
    code: 0,
    printed: '0 of 1 file formatted',
    complained: '',
    written: {},
  });
});

it('--check names them, writes nothing and exits 1', async () => {
  expect(await formatted({ 'w.readings.yaml': crooked }, true)).toEqual({
    code: 1,
    printed: 'w.readings.yaml\n1 of 1 file would be formatted',
    complained: '',
    written: {},
  });
});

describe('is left as it is, with exit code 2,', () => {
  it.each([false, true])('a file whose text is broken, with --check %s', async (check) => {
    const broken = crooked.replace('[3050, 0, 780]', '[3050, 0, 780');
    const { code, complained, written } = await formatted({ 'w.readings.yaml': broken }, check);
    expect({ code, written }).toEqual({ code: 2, written: {} });
    expect(complained).toMatch(/^framewright: w\.readings\.yaml: left as it is: line \d+: \S/);
  });

  it('one that cannot be written', async () => {
    const { code, complained, printed } = await formatted({ 'w.readings.yaml': crooked }, false, 'w: no');
    expect({ code, complained, printed }).toEqual({
      code: 2,
      complained: 'framewright: w: no',
      printed: '0 of 1 file formatted',
    });
  });

  it('one whose bytes are no text', async () => {
    const { code, written } = await formatted({ 'w.readings.yaml': `${crooked}# \ufffd\n` });
    expect({ code, written }).toEqual({ code: 2, written: {} });
  });
});
