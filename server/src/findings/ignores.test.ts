import { describe, expect, it } from 'vitest';
import { carChassis, filesOf, jobOn, measured } from '../testing/car';
import { analysed } from './testing/analysed';

const off = '      rail-tip-upper.L: [3012, 440.8, 352]';
const comment = (reason: string, rule = 'reading/outside'): string =>
  `   # framewright-ignore ${rule}${reason}`;

/** What is said of comments in a job, and which findings they silence. */
async function told(job: string, files = filesOf(job)): Promise<{ said: string[]; silenced: string[] }> {
  const { findings } = await analysed(files, 'w.readings.yaml');
  return {
    said: findings.filter(({ rule }) => rule === 'settings/unused-ignore').map(({ message }) => message),
    silenced: findings.flatMap(({ rule, ignored }) => (ignored === null ? [] : [`${rule}: ${ignored}`])),
  };
}

const jobOfRow = (row: string): string => jobOn(measured(row));

describe('a reason', () => {
  it.each(['bracket renewed later', '«später»', '後で', 'ok'])('is %s', async (reason) =>
    expect(await told(jobOfRow(off + comment(`: ${reason}`)))).toEqual({
      said: [],
      silenced: [`reading/outside: ${reason}`],
    }),
  );

  it.each(['\ue000', '-', '???', '12.5', '  …  ', '\u200b', '✓', ': :'])(
    'is not %j: it silences nothing, and that is said at the comment',
    async (reason) => {
      const job = jobOfRow(off + comment(`: ${reason}`));
      const { findings, text } = await analysed(filesOf(job), 'w.readings.yaml');
      const said = findings.filter(({ rule }) => rule === 'settings/unused-ignore');
      expect(said.map(({ message }) => message)).toEqual([
        'this comment silences nothing: there is no word after the colon; write why, ' +
          '`# framewright-ignore reading/outside: reason`',
      ]);
      expect(text.slice(said[0].range.start, said[0].range.end)).toMatch(/^# framewright-ignore reading\/o/);
      expect(findings.find(({ rule }) => rule === 'reading/outside')?.ignored).toBeNull();
    },
  );

  it('is asked for where none stands', async () => {
    for (const nothing of ['', ':', ':   '])
      expect((await told(jobOfRow(off + comment(nothing)))).said).toEqual([
        'a reason is required: `# framewright-ignore reading/outside: reason`',
      ]);
  });
});

describe('a comment', () => {
  const sound = '      rail-tip-upper.L: [3012, 452, 352]';
  const idle = 'is not raised here: this comment silences nothing';

  it('that silences nothing is reported', async () => {
    expect((await told(jobOfRow(sound + comment(': bent')))).said).toEqual([`reading/outside ${idle}`]);
    expect((await told(jobOfRow(sound + comment(': bent', 'chassis/no-source')))).said).toEqual([
      `chassis/no-source ${idle}`,
    ]);
  });

  it('stays where the chassis is missing, or cannot be read whole', async () => {
    const job = jobOfRow(sound + comment(': bent'));
    const bodies: Record<string, string>[] = [
      {},
      { 'car.chassis.yaml': `${carChassis}spans: [` },
      { 'car.chassis.yaml': carChassis.replace('points:\n', 'points:\n  hook: { both: [1, 2] }\n') },
    ];
    for (const chassis of bodies) {
      const { said } = await told(job, { 'w.readings.yaml': job, ...chassis });
      expect(said, JSON.stringify(chassis)).toEqual([]);
    }
  });

  it('about the text is still held against it where the chassis is missing', async () => {
    const job = jobOfRow(sound + comment(': meant', 'text/unknown-key'));
    expect((await told(job, { 'w.readings.yaml': job })).said).toEqual([`text/unknown-key ${idle}`]);
  });

  it('stays while the text is broken and conclusions are held back', async () => {
    expect((await told(`${jobOfRow(sound + comment(': bent'))}  - note: "open\n`)).said).toEqual([]);
    const meant = jobOfRow(sound + comment(': meant', 'text/unknown-key'));
    expect((await told(meant)).said).toEqual([`text/unknown-key ${idle}`]);
    expect((await told(`${meant}  - note: "open\n`)).said).toEqual([]);
    const key = jobOfRow(sound).replace(
      'timeline:',
      `base: auto # framewright-ignore reading/coverage: known\ntimeline:`,
    );
    expect((await told(key)).said).toEqual([`reading/coverage ${idle}`]);
    expect((await told(key.replace('base: auto', 'base: 7'))).said).toEqual([]);
  });

  it('stays at a row that is not judged: the base does not hold it, or it was not read', async () => {
    const unbased = jobOn(`  - measure: as received\n    readings:\n${sound}${comment(': bent')}\n`);
    expect((await told(unbased)).said).toEqual([]);
    expect((await told(jobOfRow(`      rail-tip-upper.L: [3012, 452]${comment(': bent')}`))).said).toEqual(
      [],
    );
    expect((await told(jobOfRow(`      rail-tip-uper.L: [3012, 452, 3]${comment(': bent')}`))).said).toEqual(
      [],
    );
    expect((await told(jobOfRow(`      rail-tip-upper.L: unreachable${comment(': bent')}`))).said).toEqual(
      [],
    );
  });

  it('about a rule that is switched off stays where the rule has something to say, and only there', async () => {
    const settings = { '.framewright.yaml': 'framewright: settings/1\nrules: { reading/outside: off }\n' };
    const used = jobOfRow(off + comment(': bent'));
    expect(await told(used, { ...filesOf(used), ...settings })).toEqual({ said: [], silenced: [] });
    const stray = jobOfRow(sound + comment(': bent'));
    expect((await told(stray, { ...filesOf(stray), ...settings })).said).toEqual([`reading/outside ${idle}`]);
  });

  it('in a chassis file stays while a parent is missing or the file is broken', async () => {
    const name = 'car.chassis.yaml';
    const text = carChassis.replace('points:\n', 'points: # framewright-ignore chassis/no-source: later\n');
    const said = async (chassis: string) =>
      (await analysed({ [name]: chassis }, name)).findings
        .filter(({ rule }) => rule === 'settings/unused-ignore')
        .map(({ message }) => message);
    expect(await said(text)).toEqual([`chassis/no-source ${idle}`]);
    expect(await said(`extends: none.chassis.yaml\n${text}`)).toEqual([]);
    expect(await said(`${text}spans: [`)).toEqual([]);
  });
});
