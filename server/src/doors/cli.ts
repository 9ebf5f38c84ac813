import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { errorWords } from '../text/error-words';
import { bundle } from './load';

/** For the build, which keeps what was compiled. */
export { compiledBundle } from './load';

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
  report FILE -o PAGE    the dimensional record of a job, one HTML page to keep and to print
      --pdf              print it as PDF beside the page as well, by a Chromium of this machine
      --force            write over a page or PDF that is read-only, or not one of ours
      --paper a4|letter  what it is laid out for (default: the PDF a4, the page what it is printed on)
  explain RULE           what a rule means and how to mend what it reports
  lsp --stdio            the language server, for an editor
  --help, --version

exit: 0 nothing wrong, 1 a malformed file or a closed job that fails, 2 wrong usage, a file that cannot be read or written,
      output that cannot be written, or where the program itself fails
`;

const options = {
  help: { type: 'boolean', short: 'h' },
  version: { type: 'boolean', short: 'V' },
  open: { type: 'boolean' },
  verbose: { type: 'boolean', short: 'v' },
  summaries: { type: 'boolean' },
  'exit-zero': { type: 'boolean' },
  json: { type: 'boolean' },
  output: { type: 'string', short: 'o' },
  pdf: { type: 'boolean' },
  paper: { type: 'string' },
  force: { type: 'boolean' },
  stdio: { type: 'boolean' },
  'node-ipc': { type: 'boolean' },
  clientProcessId: { type: 'string' },
} as const;

/** The flags that each command takes, besides --help and --version: another's is refused, not passed over. */
const flagsOf: Record<string, readonly (keyof typeof options)[]> = {
  check: ['open', 'verbose', 'summaries', 'exit-zero'],
  inspect: ['json'],
  plan: [],
  report: ['output', 'pdf', 'paper', 'force'],
  explain: [],
  lsp: ['stdio', 'node-ipc', 'clientProcessId'],
};

/** Runs one command; sets the exit code instead of leaving at once, so that output is written to its end. */
export async function run(args: readonly string[]): Promise<void> {
  // what is never finished did not pass
  process.exitCode = 2;
  process.on('uncaughtException', strayed);
  process.on('unhandledRejection', strayed);
  process.stdout.on('error', unwritten);
  // a complaint that nobody can read is still in the exit code
  process.stderr.on('error', () => {});
  try {
    const code = await exitCode(args);
    process.exitCode = hasFailed ? 2 : code;
  } catch (error) {
    strayed(error);
  }
  flush();
}

/** Something went wrong that makes the exit code 2, whatever is found. */
let hasFailed = false;
/** The language server has the streams, and its own way with what strays. */
let isServing = false;

function failed(complaint: string): void {
  if (isServing || hasFailed) return;
  hasFailed = true;
  process.exitCode = 2;
  output.complain(`framewright: ${complaint}`);
}

const strayed = (error: unknown): void =>
  failed(
    `a fault of the program, not of your files: ${errorWords(error)}. Please report it with what was asked.`,
  );

/** A reader that closes the pipe early (`| head`) is no error: the exit code says what was found all the same. */
function unwritten(error: NodeJS.ErrnoException): void {
  isUnread = true;
  if (error.code !== 'EPIPE') failed(`the output cannot be written: ${errorWords(error)}`);
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
    case 'report':
      return reported(rest, values);
    case 'explain':
      return explained(rest);
    default:
      isServing = true;
      return bundle('main').serve();
  }
}

const parsedArguments = (args: readonly string[]) =>
  parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
type Values = ReturnType<typeof parsedArguments>['values'];

/** Lines that were printed and not yet written: a write for each of ten thousand lines takes longer than making them. */
let pending = '';
const largestPending = 1 << 16;

/** Nothing more can be written. */
let isUnread = false;

function flush(): void {
  if (pending !== '' && !isUnread) process.stdout.write(pending);
  pending = '';
}

const output = {
  print: (line: string): void => {
    pending += `${line}\n`;
    if (process.stdout.isTTY || pending.length > largestPending) flush();
  },
  // what was printed before a complaint is read before it
  complain: (line: string): void => {
    flush();
    process.stderr.write(`${line}\n`);
  },
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
  JSON.parse(readFileSync(join(import.meta.dirname, '../package.json'), 'utf8')).version;

const targets = (paths: readonly string[]) =>
  paths.map((path) => ({ path, uri: pathToFileURL(resolve(path)).href }));

async function checked(paths: readonly string[], values: Values): Promise<number> {
  const code = await bundle('cli-check').checked(
    targets(paths.length === 0 ? ['.'] : paths),
    {
      open: values.open === true,
      verbose: values.verbose === true,
      summaries: values.summaries === true,
      coloured: process.stdout.isTTY === true && process.env.NO_COLOR === undefined,
    },
    process.stderr.isTTY ? { ...output, progress } : output,
  );
  return values['exit-zero'] && code === 1 ? 0 : code;
}

async function inspected(paths: readonly string[]): Promise<number> {
  if (paths.length === 0) return wrongUsage('inspect needs a file');
  const { inspect, nodeFiles } = bundle('cli-commands');
  return inspect(nodeFiles(), targets(paths), output);
}

async function planned(rest: readonly string[]): Promise<number> {
  if (rest.length === 0 || rest.length > 2)
    return wrongUsage('plan needs a readings file and, if you like, a part');
  const { plan, nodeFiles } = bundle('cli-commands');
  return plan(nodeFiles(), targets(rest.slice(0, 1))[0], rest[1], output);
}

async function reported(
  rest: readonly string[],
  { output: page, pdf, paper, force = false }: Values,
): Promise<number> {
  if (rest.length !== 1) return wrongUsage('report needs one readings file');
  // a slip of the hand must not write over a job
  if (page === undefined || !/.\.html?$/i.test(page))
    return wrongUsage('report needs a page to write: -o NAME.html');
  if (paper !== undefined && paper !== 'a4' && paper !== 'letter')
    return wrongUsage('--paper is a4 or letter');
  const { report, nodeFiles, textWritten, isReport, foundChromium, printedAsPdf } = bundle('cli-commands');
  const printAsPdf = (text: string, title: string): string | null => {
    const chromium = foundChromium();
    if (chromium === null)
      return `${page} was written, but no Chromium was found to print it with: open it in a browser and print it there`;
    const pdfPath = resolve(page.replace(/\.html?$/i, '.pdf'));
    return printedAsPdf(chromium, text, title, { pdfPath, force });
  };
  return report(nodeFiles(), targets(rest)[0], {
    ...output,
    write: (text) => textWritten(page, text, { force, isOurs: (start) => isReport(start.toString()) }),
    printAsPdf: pdf === true ? printAsPdf : null,
    paper: paper === undefined ? null : paper === 'a4' ? 'A4' : paper,
  });
}

async function explained(rules: readonly string[]): Promise<number> {
  if (rules.length === 0) return wrongUsage('explain needs the name of a rule');
  const { rulePage, unknownRule } = bundle('cli-commands');
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
