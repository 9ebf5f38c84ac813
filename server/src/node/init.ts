import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { type Initial, initialFiles, initialGitConfig } from '../commands/init';
import { codeOf, messageOf } from './error-code';
import { runGit } from './git';

/** Writes what is not there yet. Nothing is written over, and no choice of somebody's is changed. */
export async function initialised(folder: string): Promise<{ all: Initial[]; isRepository: boolean }> {
  const all: Initial[] = initialFiles.map(({ path, text, isProgram }) => ({
    what: path,
    became: made(join(folder, path), text, isProgram === true ? 0o755 : 0o644),
  }));
  const isRepository = (await runGit(folder, ['rev-parse', '--git-dir'])).code === 0;
  if (isRepository)
    for (const [key, value] of initialGitConfig)
      all.push({ what: `git config ${key}`, became: await chosen(folder, key, value) });
  return { all, isRepository };
}

function made(path: string, text: string, mode: number): Initial['became'] {
  try {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text, { flag: 'wx', mode });
    return 'written';
  } catch (error) {
    return codeOf(error) === 'EEXIST' ? 'kept' : { failed: codeOf(error) ?? messageOf(error) };
  }
}

async function chosen(folder: string, key: string, value: string): Promise<Initial['became']> {
  if ((await runGit(folder, ['config', '--get', key])).code === 0) return 'kept';
  const { code, stderr } = await runGit(folder, ['config', '--local', key, value]);
  return code === 0 ? 'written' : { failed: stderr };
}
