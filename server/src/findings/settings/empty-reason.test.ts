import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { emptyReasons, isEmptyReason } from '../../model/read/empty-reasons';
import { filesOf, jobOn, measured } from '../../testing/car';
import { standingOf } from '../standing';
import { analysed } from '../testing/analysed';
import { found, silent } from '../testing/kit';

const name = 'settings/empty-reason';
const off = (reason: string) =>
  measured(`      rail-tip-upper.L: [3012, 440.8, 352]   # framewright-ignore reading/outside: ${reason}`);
const signed = (judgedBy: string) =>
  `sign-off: { by: rk, date: 2026-03-05, chassis: sha256-00000000, judged-by: ${judgedBy} }\n`;

it('one that says nothing is told, and silences still', async () => {
  await found(
    name,
    filesOf(
      jobOn(
        `${off('see above')}\n#                                            ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning: ${name} “see above” is no reason`,
      ),
    ),
  );
  await silent(name, filesOf(jobOn(off('bracket renewed later'))));
  // no letter at all: it silences nothing, and that is said by another rule
  await silent(name, filesOf(jobOn(off('12.5'))));
});

const outside = async (text: string) => {
  const { findings } = await analysed(filesOf(text), 'w.readings.yaml');
  return {
    ignored: findings.find(({ rule }) => rule === 'reading/outside')?.ignored ?? null,
    said: findings.filter(({ rule }) => rule === name).map(({ message }) => message),
    unused: findings.filter(({ rule }) => rule === 'settings/unused-ignore').length,
  };
};

describe('in a closed job', () => {
  it('it counts as not given', async () => {
    expect(await outside(jobOn(off('none')))).toMatchObject({ ignored: 'none' });
    const closed = await outside(`${jobOn(off('none'))}\n${signed('0.2')}`);
    expect(closed).toMatchObject({ ignored: null, unused: 0 });
    expect(closed.said).toEqual([
      expect.stringContaining('it counts as not given, and reading/outside stands'),
    ]);
    expect(await outside(`${jobOn(off('bracket renewed later'))}\n${signed('0.2')}`)).toMatchObject({
      ignored: 'bracket renewed later',
      said: [],
    });
  });

  it('what was signed before stays silenced', async () => {
    const closed = await outside(`${jobOn(off('none'))}\n${signed('0.1')}`);
    expect(closed.ignored).toBe('none');
    expect(closed.said).toEqual([expect.stringContaining('(newer than this signature)')]);
  });
});

it('an error that it silences stands against a sign-off before it is signed', async () => {
  const mirrored = (reason: string) =>
    jobOn(
      measured('      rail-tip-upper.L: [3012, 452, 352]').replace(
        'received\n',
        `received   # framewright-ignore base/mirrored: ${reason}\n`,
      ),
      'instrument: { uncertainty: 0.2 }\naxes: [forward, right, up]',
    );
  const against = async (reason: string) => {
    const analysis = await analysed(filesOf(mirrored(reason)), 'w.readings.yaml');
    if (analysis.kind !== 'readings' || analysis.inspection === null) throw new Error('not judged');
    const { inspection, settings, findings } = analysis;
    return standingOf({ inspection, settings, findings }).remaining.filter((line) =>
      line.startsWith('base/mirrored'),
    );
  };
  expect(await against('ok')).toEqual(['base/mirrored: 1 error']);
  expect(await against('measured from in front on purpose')).toEqual([]);
});

describe('empty', () => {
  it.each([
    'ok',
    'OK.',
    '(none)',
    'N/A',
    'see  above!',
    'Siehe oben',
    'entfallt',
    'D’ACCORD',
    "d'accord",
    'Ídem',
    'sí',
    'ab cd',
    '後',
    'x1',
  ])('is %j', (reason) => expect(isEmptyReason(reason)).toBe(true));
  it.each([
    'bent',
    'bracket renewed later',
    '後で',
    'ठीक',
    'see above: bracket',
    'okay by hand gauge',
    '',
    '12.5',
    '✓',
  ])('is not %j', (reason) => expect(isEmptyReason(reason)).toBe(false));
});

it('the language page prints the list', () => {
  const page = readFileSync(new URL('../../../../schemas/README.md', import.meta.url), 'utf8');
  for (const [language, words] of Object.entries(emptyReasons))
    expect(page).toContain(`| ${language} | ${words} |`);
});
