import { spawn } from 'node:child_process';
import { closeSync, openSync, readFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';

/**
 * How long a program of Node takes from its start to its end, ms. What it prints goes into a file, so that nobody here has
 * to read along.
 * @throws where it fails, or does not print what is expected of it
 */
export async function wholeProcessMs(
  args: readonly string[],
  printsInto: string,
  expected: RegExp,
  cwd?: string,
): Promise<number> {
  const out = openSync(printsInto, 'w');
  const start = performance.now();
  const child = spawn(process.execPath, args, { cwd, stdio: ['ignore', out, out] });
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once('error', reject);
    child.once('exit', resolve);
  });
  const milliseconds = performance.now() - start;
  closeSync(out);
  const printed = readFileSync(printsInto, 'utf8');
  if (code !== 0 || !expected.test(printed))
    throw new Error(`${args.join(' ')} ended with ${code} after:\n${printed.slice(-2000)}`);
  return milliseconds;
}
