import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';

/** The door of the command line. Each command is loaded only when it is asked for: start-up time is felt at every commit. */

const usage = `Judges the measurements of a hit car body against its reference dimensions.

usage: framewright COMMAND

  check [PATH…]          findings in files and folders (default: this folder), then a summary of each job
      --open             errors in open jobs count too
      --verbose          print findings for information as well
      --summaries        print twist, sweep and bend of each job's newest stage
      --exit-zero        exit 0 whatever is found
  inspect --json FILE…   all figures, for other programs (inspect/1)
  plan FILE [PART]       where to hook, which way to pull, where to hold
  explain RULE           what a rule means and how to mend what it reports
  lsp --stdio            the language server, for an editor
  --help, --version

exit: 0 nothing wrong, 1 a malformed file or a closed job that fails, 2 wrong usage or a file that cannot be read
`;

const options = {
  help: { type: 'boolean', short: 'h' },
  version: { type: 'boolean', short: 'V' },
  open: { type: 'boolean' },
  verbose: { type: 'boolean', short: 'v' },
  summaries: { type: 'boolean' },
  'exit-zero': { type: 'boolean' },
  json: { type: 'boolean' },
  stdio: { type: 'boolean' },
  'node-ipc': { type: 'boolean' },
  clientProcessId: { type: 'string' },
} as const;

/** The flags that each command takes, besides --help and --version: another's is refused, not passed over. */
const flagsOf: Record<string, readonly (keyof typeof options)[]> = {
  check: ['open', 'verbose', 'summaries', 'exit-zero'],
  inspect: ['json'],
  plan: [],
  explain: [],
  lsp: ['stdio', 'node-ipc', 'clientProcessId'],
};

/** Runs one command; sets the exit code instead of leaving at once, so that output is written to its end. */
export async function run(args: readonly string[]): Promise<void> {
  // a reader that closes the pipe early (`| head`) is no error of ours
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
  try {
    process.exitCode = await exitCode(args);
  } catch (error) {
    output.complain(
      `framewright: a fault of the program, not of your files: ${(error as Error).message}. Please report it with what was asked.`,
    );
    process.exitCode = 2;
  }
}

async function exitCode(args: readonly string[]): Promise<number> {
  let parsed: ReturnType<typeof parsedArguments>;
  try {
    parsed = parsedArguments(args);
  } catch (error) {
    return wrongUsage((error as Error).message.split('. ')[0]);
  }
  const { values, positionals } = parsed;
  const [command, ...rest] = positionals;
  if (values.version) return printed(version());
  if (values.help || command === undefined || command === 'help') {
    if (command === undefined && !values.help) return wrongUsage('a command is missing');
    return printed(usage.trimEnd());
  }
  if (!Object.hasOwn(flagsOf, command)) return wrongUsage(`there is no command ${command}`);
  const stray = Object.keys(values).find((flag) => !(flagsOf[command] as readonly string[]).includes(flag));
  if (stray !== undefined) return wrongUsage(`${command} has no --${stray}`);
  switch (command) {
    case 'check':
      return checked(rest, values);
    case 'inspect':
      return values.json ? inspected(rest) : wrongUsage('inspect prints JSON only: add --json');
    case 'plan':
      return planned(rest);
    case 'explain':
      return explained(rest);
    default:
      return (await import('./main')).serve();
  }
}

const parsedArguments = (args: readonly string[]) =>
  parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
type Values = ReturnType<typeof parsedArguments>['values'];

const output = {
  print: (line: string) => void process.stdout.write(`${line}\n`),
  complain: (line: string) => void process.stderr.write(`${line}\n`),
};

/** One line on the terminal that is written over, and wiped at the end. */
function progress(done: number, of: number): void {
  if (of < 100) return;
  const line = done < of ? `${done} of ${of} files` : '';
  process.stderr.write(`\r${line}\x1b[K`);
}

function printed(text: string): number {
  output.print(text);
  return 0;
}

function wrongUsage(message: string): number {
  output.complain(`framewright: ${message}\n\n${usage.trimEnd()}`);
  return 2;
}

const version = (): string =>
  JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8')).version;

const targets = (paths: readonly string[]) =>
  paths.map((path) => ({ path, uri: pathToFileURL(resolve(path)).href }));

async function checked(paths: readonly string[], values: Values): Promise<number> {
  const [{ check }, { nodeFiles }] = await Promise.all([import('./commands/check'), import('./node-files')]);
  const coloured = process.stdout.isTTY === true && process.env.NO_COLOR === undefined;
  const { reportingHere } = await import('./commands/check');
  const { fewestForThreads, reportingByThreads } = await import('./node-workers');
  const files = nodeFiles();
  const code = await check(
    files,
    targets(paths.length === 0 ? ['.'] : paths),
    {
      open: values.open === true,
      verbose: values.verbose === true,
      summaries: values.summaries === true,
      coloured,
    },
    process.stderr.isTTY ? { ...output, progress } : output,
    (all, options) =>
      (all.length < fewestForThreads
        ? reportingHere(files)
        : reportingByThreads(new URL('./check-thread.js', import.meta.url)))(all, options),
  );
  return values['exit-zero'] && code === 1 ? 0 : code;
}

async function inspected(paths: readonly string[]): Promise<number> {
  if (paths.length === 0) return wrongUsage('inspect needs a file');
  const [{ inspect }, { nodeFiles }] = await Promise.all([
    import('./commands/inspect'),
    import('./node-files'),
  ]);
  return inspect(nodeFiles(), targets(paths), output);
}

async function planned(rest: readonly string[]): Promise<number> {
  if (rest.length === 0 || rest.length > 2)
    return wrongUsage('plan needs a readings file and, if you like, a part');
  const [{ plan }, { nodeFiles }] = await Promise.all([import('./commands/plan'), import('./node-files')]);
  return plan(nodeFiles(), targets(rest.slice(0, 1))[0], rest[1], output);
}

async function explained(rules: readonly string[]): Promise<number> {
  if (rules.length === 0) return wrongUsage('explain needs the name of a rule');
  const { rulePage, unknownRule } = await import('./commands/explain');
  for (const rule of rules) {
    const page = rulePage(rule);
    if (page === null) {
      output.complain(`framewright: ${unknownRule(rule)}`);
      return 2;
    }
    output.print(page.trimEnd());
  }
  return 0;
}
