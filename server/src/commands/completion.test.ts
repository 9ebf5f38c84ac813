import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { commands, factsOf, isCommand } from './command-table';
import { completion } from './completion';
import { manPage } from './man';

const shells = ['bash', 'zsh', 'fish'] as const;
const names = Object.keys(commands).filter(isCommand);
const told = names.flatMap((name) =>
  Object.entries(factsOf(name).options).flatMap(([option, { says }]) => (says === undefined ? [] : [option])),
);

describe.each(shells)('the completion for %s', (shell) => {
  it('has every command and option, and none that is for programs', () => {
    const script = completion(shell);
    for (const name of names) expect(script).toContain(name);
    for (const option of told) expect(script).toContain(shell === 'fish' ? `-l ${option}` : `--${option}`);
    expect(script).not.toContain('node-ipc');
    expect(script).toContain('text concise');
  });

  it('has quotes that are closed on their line', () => {
    for (const line of completion(shell).split('\n'))
      expect(line.replaceAll("'\\''", '').replaceAll("\\'", '').split("'").length % 2, line).toBe(1);
  });
});

/** What bash would complete, the last word being typed. */
function completed(...words: string[]): string[] {
  const script = `${completion('bash')}
COMP_WORDS=(framewright ${words.map((word) => `'${word}'`).join(' ')})
COMP_CWORD=${words.length}
_framewright
printf '%s\\n' "\${COMPREPLY[@]}"`;
  const { stdout, stderr, status } = spawnSync('bash', ['--norc', '-c', script], { encoding: 'utf8' });
  expect({ stderr, status }).toEqual({ stderr: '', status: 0 });
  return stdout.trim().split('\n');
}

it('bash takes it, and completes commands, options, their words and operands', () => {
  expect(spawnSync('bash', ['-n'], { input: completion('bash') }).status).toBe(0);
  expect(completed('che')).toEqual(['check']);
  expect(completed('')).toEqual(names);
  expect(completed('check', '--st')).toEqual(['--staged', '--stdin-filename']);
  expect(completed('check', '--format', 'g')).toEqual(['github', 'gitlab']);
  expect(completed('completion', '')).toEqual([...shells]);
  expect(completed('help', 'fo')).toEqual(['format']);
  expect(completed('check', '/et')).toContain('/etc');
});

describe('the page of the manual', () => {
  const page = manPage('9.8.7');

  it('has every command and option', () => {
    expect(page).toMatch(/^\.TH FRAMEWRIGHT 1 .*9\.8\.7/);
    for (const name of names) expect(page).toContain(`.B framewright ${name.replaceAll('-', '\\-')}`);
    for (const option of told) expect(page).toContain(`\\-\\-${option.replaceAll('-', '\\-')}`);
  });

  it('is read by groff without a warning', () => {
    expect(page).toMatch(/^[\n -~]+$/);
    expect(page).toContain('[PATH\\[u2026]]');
    const { stderr, error } = spawnSync('groff', ['-man', '-Tutf8', '-ww'], {
      input: page,
      encoding: 'utf8',
    });
    // where it is not installed, what it would stumble over is looked for above and below
    expect(error === undefined ? stderr : '').toBe('');
  });

  it('has no line that is taken for a command', () => {
    const requests = page.split('\n').flatMap((line) => /^[.'](\S+)/.exec(line)?.[1] ?? []);
    expect([...new Set(requests)].sort()).toEqual(['B', 'RE', 'RS', 'SH', 'TH', 'TP']);
    expect(page.split('\n').filter((line) => line === '.RS').length).toBe(
      page.split('\n').filter((line) => line === '.RE').length,
    );
  });
});
