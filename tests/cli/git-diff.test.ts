import { spawnSync } from 'node:child_process';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { signedJob } from '../../server/src/diff/histories.fixture';
import { type GitShop, gitShop } from '../../server/src/node/testing/git-shop';
import { chassisWith, job, measure } from '../../server/src/testing/body';
import { framewright, program } from './framewright';

/** Real git calls the real program. */

const command = `"${process.execPath}" "${program}"`;
const body = chassisWith();
const moved = body.replace('both: [3012, 448, 210]', 'both: [3018, 448, 207]');
const signed = signedJob();
const late = signed.replace('rail-tip-lower.L: [3012, 448', 'rail-tip-lower.L: [3012, 442');
const name = 'signed.readings.yaml';

let shop: GitShop;
beforeEach(() => {
  shop = gitShop();
  shop.git('config', 'diff.framewright.command', `${command} git-diff`);
  shop.git('config', 'diff.framewright-text.textconv', `${command} textconv`);
  shop.commit({
    '.gitattributes': '*.readings.yaml diff=framewright\n*.chassis.yaml diff=framewright\n',
    'body.chassis.yaml': body,
    [name]: signed,
    'notes.txt': 'one\n',
  });
});
afterEach(() => shop.gone());

const linesOf = (text: string): string[] => text.split('\n');

describe('git diff with the driver of .gitattributes', () => {
  it('tells a reading that was changed after the signature, and leaves other files to git', () => {
    shop.write({ [name]: late, 'notes.txt': 'two\n' });
    const lines = linesOf(shop.git('diff'));
    expect(lines).toContain('-one');
    expect(lines.find((line) => line.startsWith(name))).toMatch(
      /^signed\.readings\.yaml: changed after the signature: .*seals agree → the job is no longer what was signed$/,
    );
    expect(lines).toContain(
      '  ! after the signature: rail-tip-lower.L in “finished” read [3012, 448, 210] → [3012, 442, 210]',
    );
  });

  it('judges each side by the chassis of its own revision', () => {
    const bent = job(measure('as received'));
    shop.commit({ [name]: bent });
    shop.commit({ 'body.chassis.yaml': moved, [name]: bent.replace('as received', 'first') });
    const said = shop.git('diff', 'HEAD~1', 'HEAD', '--', name);
    expect(said).toMatch(/: (.*; )?open, nothing remains → 2 remain$/m);
    expect(said).toContain('“first”: within → outside; length 0 → 6.0 rearward');
    expect(said).toMatch(/before: judged by the files of [0-9a-f]{10}\n.*now: judged by the files of HEAD/);
  });

  it('goes on where a chassis is missing on one side, and says so', () => {
    shop.commit({ 'body.chassis.yaml': null, [name]: late });
    const said = shop.git('diff', 'HEAD~1', 'HEAD');
    expect(said).toContain(
      `${name}: 1 reading changed (6.0 mm); signed by rk 2026-03-05, gate passes, seals agree → cannot be judged`,
    );
    expect(said).toContain('now: nothing is judged: there is no file body.chassis.yaml');
    expect(said).toContain('body.chassis.yaml: deleted body of 26 points and 7 parts');
  });

  it('tells what is staged, what was renamed, and what is new', () => {
    shop.git('mv', name, 'renamed.readings.yaml');
    shop.write({ 'renamed.readings.yaml': late, 'new.readings.yaml': job(measure('read')) });
    shop.git('add', '-A');
    const said = shop.git('diff', '--cached', '-M');
    expect(said).toContain('renamed.readings.yaml: changed after the signature');
    expect(said).toContain('it was called signed.readings.yaml');
    expect(said).toContain('new.readings.yaml: new job: open, nothing remains');
  });

  it('goes on over files that are not merged, broken or odd', () => {
    shop.git('checkout', '-q', '-b', 'other');
    shop.commit({ [name]: late });
    shop.git('checkout', '-q', 'main');
    shop.commit({ [name]: signed.replace('rail-tip-lower.L: [3012, 448', 'rail-tip-lower.L: [3012, 440') });
    expect(() => shop.git('merge', 'other')).toThrow();
    expect(shop.git('diff', '--cached')).toContain(`${name}: not merged yet`);
    shop.git('checkout', '-q', '-f', 'main');
    shop.write({ [name]: '\u0000\u0001[', 'body.chassis.yaml': 'framewright: chassis/1\npoints: {' });
    const said = shop.git('diff');
    expect(said).toContain(name);
    expect(said).toContain('body.chassis.yaml');
  });

  it('is called by git log as well', () => {
    shop.commit({ [name]: late });
    expect(shop.git('log', '-p', '--ext-diff', '-1')).toContain('changed after the signature');
  });
});

describe('git diff with GIT_EXTERNAL_DIFF', () => {
  it('gives the plain names of a file that is none of ours, and ends well', () => {
    const own = { GIT_EXTERNAL_DIFF: `${command} git-diff` };
    shop.write({ 'notes.txt': 'two\n', [name]: late });
    const { status, stdout } = spawnSync('git', ['diff'], {
      cwd: shop.folder,
      encoding: 'utf8',
      env: { ...process.env, ...own },
    });
    expect(status).toBe(0);
    expect(stdout).toContain('--- a/notes.txt\n+++ b/notes.txt\n');
    expect(stdout).toContain('changed after the signature');
  });
});

describe('git diff with textconv', () => {
  it('compares plain lines, the same for the same facts', () => {
    shop.commit({ '.gitattributes': '*.yaml diff=framewright-text\n' });
    shop.write({
      [name]: late.replace('[3012, 442, 210]', '[ 3012.0,  442, 210 ]   # read twice'),
      'body.chassis.yaml': moved,
    });
    const lines = linesOf(shop.git('diff', '-U0')).filter((line) => /^[-+][^-+]/.test(line));
    expect(lines).toEqual([
      expect.stringMatching(/^-point rail-tip-lower\.L \[3012, 448, 210\], limits /),
      expect.stringMatching(/^-point rail-tip-lower\.R \[3012, -448, 210\], limits /),
      expect.stringMatching(/^\+point rail-tip-lower\.L \[3018, 448, 207\], limits /),
      expect.stringMatching(/^\+point rail-tip-lower\.R \[3018, -448, 207\], limits /),
      '-“finished” rail-tip-lower.L [3012, 448, 210]',
      '+“finished” rail-tip-lower.L [3012, 442, 210]',
    ]);
  });
});

describe('framewright diff', () => {
  const code = (...args: string[]) => framewright(['diff', ...args], shop.folder).code;

  it('exits 0 where the text alone differs', () => {
    shop.write({ [name]: `# seen\n${signed}` });
    expect(code()).toBe(0);
  });

  it('exits 1 where the meaning is another, in what it was asked about', () => {
    shop.write({ [name]: late });
    expect(code('HEAD', '--', name)).toBe(1);
    expect(code('HEAD', '--', 'notes.txt')).toBe(0);
  });

  it('exits 2 where it cannot tell', () => {
    expect(code('nowhere')).toBe(2);
    expect(framewright(['git-diff', 'a', 'b'], shop.folder).code).toBe(2);
    expect(framewright(['textconv', 'nowhere.readings.yaml'], shop.folder).code).toBe(2);
    expect(framewright(['diff', '--format', 'concise']).err).toMatch(/--format is text, markdown or json/);
  });
});
