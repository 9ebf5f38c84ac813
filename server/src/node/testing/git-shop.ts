import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

/** A repository of real git in a temporary folder, for tests. */
export interface GitShop {
  readonly folder: string;
  git(...args: readonly string[]): string;
  /** Texts by path; null takes a file away. */
  write(texts: Readonly<Record<string, string | null>>): void;
  /** Writes and commits; answers the commit. */
  commit(texts: Readonly<Record<string, string | null>>): string;
  gone(): void;
}

/** Nothing of this machine's settings has a say. */
const ownSettings = {
  GIT_CONFIG_GLOBAL: '/dev/null',
  GIT_CONFIG_SYSTEM: '/dev/null',
  GIT_CONFIG_NOSYSTEM: '1',
};

export function gitShop(env: NodeJS.ProcessEnv = {}): GitShop {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'framewright-shop-')));
  const git = (...args: readonly string[]): string =>
    execFileSync('git', ['-c', 'user.name=rk', '-c', 'user.email=rk@invalid', ...args], {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, ...ownSettings, ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
  const write: GitShop['write'] = (texts) => {
    for (const [name, text] of Object.entries(texts)) {
      const path = join(folder, name);
      mkdirSync(dirname(path), { recursive: true });
      if (text === null) rmSync(path);
      else writeFileSync(path, text);
    }
  };
  git('init', '-q', '-b', 'main');
  return {
    folder,
    git,
    write,
    commit: (texts) => {
      write(texts);
      git('add', '-A');
      git('commit', '-q', '--allow-empty', '-m', 'change');
      return git('rev-parse', 'HEAD').trim();
    },
    gone: () => rmSync(folder, { recursive: true, force: true }),
  };
}
