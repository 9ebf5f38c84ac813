import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
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
  expect(completed('check', '--format', '=', 'g')).toEqual(['github', 'gitlab']);
  expect(completed('completion', '')).toEqual([...shells]);
  expect(completed('help', 'fo')).toEqual(['format']);
  expect(completed('check', '/et')).toContain('/etc');
});

/** What a person types, and what is offered then. */
const typed: readonly [line: string, offered: readonly string[]][] = [
  ['framewright che', ['check']],
  ['framewright check --st', ['--staged', '--stdin-filename']],
  ['framewright check --format g', ['github', 'gitlab']],
  ['framewright check --format=gitl', ['gitlab']],
  ['framewright completion ', [...shells].sort()],
  ['framewright help fo', ['format']],
  ['framewright help check --st', []],
  ['framewright report x --pap', ['--paper']],
];
const lines = typed.map(([line]) => line);
const offered = typed.map(([, words]) => words);

/** Whether a shell is there; else the tests before are what there is: its words, and quotes that are closed. */
function isThere(shell: string): boolean {
  const { error } = spawnSync(shell, ['--version']);
  if (error !== undefined) console.info(`${shell} is not installed: what it completes was not looked at`);
  return error === undefined;
}

const folder = mkdtempSync(join(tmpdir(), 'framewright-completion-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('fish takes it, and offers the same', () => {
  const file = join(folder, 'framewright.fish');
  writeFileSync(file, completion('fish'));
  if (!isThere('fish')) return;
  const script = `source ${file}; ${lines.map((line) => `complete -C '${line}'; echo END`).join('; ')}`;
  const { stdout, stderr } = spawnSync('fish', ['--no-config', '-c', script], {
    encoding: 'utf8',
    cwd: folder,
  });
  expect(stderr).toBe('');
  const said = stdout.split(/^END\n/m).slice(0, -1);
  const words = said.map((each) =>
    [...each.matchAll(/^(?:--format=)?(\S+)/gm)].map(([, word]) => word).sort(),
  );
  expect(words).toEqual(offered);
}, 60_000);

/** A zsh at a terminal of its own, to which lines are typed, each with a Tab; what it is offered goes into a file. */
const zshScript = (setUp: string, out: string): string => `
zmodload zsh/zpty
zpty shell zsh -f -i
zpty -w shell ${JSON.stringify(`PS1=; ${setUp}; source ${join(folder, 'typing.zsh')}`)}
waited() { for i in {1..600}; do (( $(grep -c END ${out}) >= $1 )) && return; sleep 0.05; done }
touch ${out}; waited 1
integer count=1
for line in ${lines.map((line) => `'${line}'`).join(' ')}; do
  zpty -n -w shell $'\\x15'"$line"$'\\t'
  waited $((++count))
done
zpty -d shell`;

const typing = (out: string): string => `
compadd () {
  local -a hits
  case " $* " in *' -'[OAD]' '*) builtin compadd "$@"; return ;; esac
  builtin compadd -A hits "$@"
  print -rl -- $hits >> ${out}
  builtin compadd "$@"
}
offer() { zle complete-word; print END >> ${out} }
zle -N offer
bindkey '^I' offer
bindkey '^U' kill-whole-line
print END >> ${out}
`;

it.each([
  ['sourced', 'autoload -U compinit; compinit -u -D; source FOLDER/_framewright'],
  ['where it looks for completions', 'fpath=(FOLDER $fpath); autoload -U compinit; compinit -u -D'],
])(
  'zsh takes it, %s, and offers the same',
  (_, setUp) => {
    writeFileSync(join(folder, '_framewright'), completion('zsh'));
    if (!isThere('zsh')) return;
    const out = join(mkdtempSync(join(folder, 'zsh-')), 'out');
    writeFileSync(join(folder, 'typing.zsh'), typing(out));
    const script = zshScript(setUp.replace('FOLDER', folder), out);
    const { stderr } = spawnSync('zsh', ['-f', '-c', script], { encoding: 'utf8', cwd: folder });
    expect(stderr).toBe('');
    const said = readFileSync(out, 'utf8').split('END\n').slice(1, -1);
    const words = said.map((each) =>
      each
        .split('\n')
        .filter((word) => word !== '')
        .sort(),
    );
    expect(words.map((each) => [...new Set(each)])).toEqual(offered);
  },
  120_000,
);

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
