import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Output } from '../commands/check-selected';
import type { CommandName, OptionValues } from '../commands/command-table';
import { formatNames } from '../commands/formats/format-names';
import { commandHelp, wholeHelp } from '../commands/help';
import { errorWords } from '../text/error-words';
import { askedBy } from './arguments';
import type { Choice } from './cli-check';
import { isColoured } from './colour';
import { bundle } from './load';

/** The door of the command line. Each command is loaded only when it is asked for: start-up time is felt at every commit. */

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
  // loaded only where something was mistyped
  const asked = askedBy(args, (name, known) => bundle('cli-commands').nearest(name, known));
  switch (asked.kind) {
    case 'wrong':
      return wrongUsage(asked.message);
    case 'version':
      return printed(version());
    case 'help':
      return printed(asked.command === null ? wholeHelp() : commandHelp(asked.command));
    case 'run':
      return runs[asked.command](asked.operands, asked.values, asked.afterDashes);
  }
}

type Run = (
  operands: readonly string[],
  values: OptionValues,
  afterDashes: number,
) => number | Promise<number>;

const runs: Record<Exclude<CommandName, 'help'>, Run> = {
  check: checked,
  fix: (paths, values) => bundle('cli-files').fixed(paths, values, output),
  format: (paths, values) => bundle('cli-files').formatted(paths, values, output),
  inspect: inspected,
  plan: planned,
  advise: advisedBy,
  report: reported,
  sign: signed,
  import: (rest, values) => bundle('cli-tables').imported(rest, values, tablesTerminal),
  export: (rest, values) => bundle('cli-tables').exported(rest, values, tablesTerminal),
  reference: (rest, values) => bundle('cli-tables').referenced(rest, values, tablesTerminal),
  scatter: scattered,
  sheet: (rest, values) => bundle('cli-tables').sheeted(rest, values, tablesTerminal),
  draw: (rest, values) => bundle('cli-tables').drawn(rest, values, tablesTerminal),
  chassis: ([file]) => {
    const { chassisPage, nodeFiles } = bundle('cli-commands');
    return chassisPage(nodeFiles(), targets([file])[0], output);
  },
  init: begun,
  diff: diffed,
  'git-diff': (args) => bundle('cli-diff').gitDiffed(args, tablesTerminal),
  textconv: ([file]) => bundle('cli-diff').textConverted(file, output),
  rules: (_, { format }) =>
    printed(
      bundle('cli-commands')
        .allRules(format === 'json')
        .join('\n'),
    ),
  explain: explained,
  completion: ([shell]) => {
    const { completion, isShell } = bundle('cli-commands');
    return isShell(shell)
      ? printed(completion(shell).trimEnd())
      : wrongUsage('completion needs bash, zsh or fish');
  },
  man: () => printed(bundle('cli-commands').manPage(version()).trimEnd()),
  lsp: () => {
    isServing = true;
    return bundle('main').serve();
  },
};

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

const tablesTerminal = { ...output, wrongUsage, spreadsheets: () => bundle('spreadsheet') };

function printed(text: string): number {
  output.print(text);
  return 0;
}

function wrongUsage(message: string): number {
  output.complain(`framewright: ${message}\n\n${wholeHelp()}`);
  return 2;
}

const version = (): string =>
  JSON.parse(readFileSync(join(import.meta.dirname, '../package.json'), 'utf8')).version;

const targets = (paths: readonly string[]) =>
  paths.map((path) => ({ path, uri: pathToFileURL(resolve(path)).href }));

async function checked(paths: readonly string[], values: OptionValues): Promise<number> {
  const chosen = chosenBy(paths, values);
  if (typeof chosen === 'string') return wrongUsage(chosen);
  const named = chosen.against === null && paths.length === 0 ? ['.'] : paths;
  const { 'stdin-filename': stdinName, 'max-warnings': mostWarnings } = values;
  const asked = targets(stdinName === undefined ? named : [stdinName]);
  const incoming = stdinName === undefined ? null : readFileSync(0, 'utf8');
  const check = (to: Output, restsOn?: Choice['restsOn']): Promise<number> =>
    bundle('cli-check').checked(
      asked,
      {
        open: values.open === true,
        verbose: values.verbose === true,
        summaries: values.summaries === true,
        // a line each: who watches sees what comes and goes
        format: formatNames.find((name) => name === (values.watch ? 'concise' : values.format)),
        coloured: isColoured(process.stdout.isTTY === true),
        mostWarnings: mostWarnings === undefined ? undefined : Number(mostWarnings),
      },
      to,
      {
        ...chosen,
        incoming,
        restsOn,
        judge: () => bundle('cli-judge'),
        baselines: () => bundle('cli-baseline'),
      },
    );
  if (values.watch) {
    const code = await bundle('cli-check').checkedAgain(asked, check, { ...output, flush });
    return left(codeOf(code, values));
  }
  return codeOf(await check(process.stderr.isTTY ? { ...output, progress } : output), values);
}

const codeOf = (code: number, values: OptionValues): number => (values['exit-zero'] && code === 1 ? 0 : code);

/** A check that is under way when it is told to end is not waited for. */
function left(code: number): number {
  process.exitCode = hasFailed ? 2 : code;
  flush();
  // what was printed before is written by then
  process.stdout.write('', () => process.exit());
  return code;
}

/** Which files are to be checked, or why what was typed names none. */
function chosenBy(
  paths: readonly string[],
  values: OptionValues,
): Omit<Choice, 'incoming' | 'restsOn' | 'judge' | 'baselines'> | string {
  const { changed, staged, since, dependents = false, 'stdin-filename': stdinName } = values;
  const { 'max-warnings': mostWarnings } = values;
  if (mostWarnings !== undefined && !/^\d{1,9}$/.test(mostWarnings))
    return `--max-warnings is a number such as 0, not ${mostWarnings}`;
  const ways = [changed && 'changed', staged && 'staged', since !== undefined && 'since'].filter(Boolean);
  if (ways.length > 1) return `check takes one of ${ways.map((way) => `--${way}`).join(', ')}`;
  if (stdinName !== undefined && (ways.length > 0 || dependents || paths.some((path) => path !== '-')))
    return 'with --stdin-filename the text comes in (`-`), and nothing else is checked';
  if (stdinName === undefined && paths.includes('-'))
    return 'to check what comes in (`-`), say in which file it would stand: --stdin-filename PATH';
  if (values.watch && (ways.length > 0 || stdinName !== undefined))
    return '--watch looks at files and folders as they stand: name those, or none';
  if (values.watch && (values.format ?? 'concise') !== 'concise')
    return '--watch prints a line a finding: --format concise, or none';
  const { 'write-baseline': writes = false, 'update-baseline': updates = false } = values;
  if (writes && updates) return 'check takes one of --write-baseline, --update-baseline';
  if ((writes || updates) && (ways.length > 0 || stdinName !== undefined || values.watch))
    return 'a baseline is written of files and folders as they stand: name those, or none';
  return {
    baseline: writes ? 'write' : updates ? 'update' : 'hold',
    against: againstOf(staged === true, changed === true, since),
    dependents,
    cache: !values['no-cache'],
  };
}

function againstOf(staged: boolean, changed: boolean, since: string | undefined): Choice['against'] {
  if (staged) return { kind: 'staged' };
  if (since !== undefined) return { kind: 'since', revision: since };
  return changed ? { kind: 'head' } : null;
}

async function inspected(paths: readonly string[], { json }: OptionValues): Promise<number> {
  if (json !== true) return wrongUsage('inspect prints JSON only: add --json');
  const { inspect, nodeFiles } = bundle('cli-commands');
  return inspect(nodeFiles(), targets(paths), output);
}

async function planned(rest: readonly string[]): Promise<number> {
  const { plan, nodeFiles } = bundle('cli-commands');
  return plan(nodeFiles(), targets(rest.slice(0, 1))[0], rest[1], output);
}

async function advisedBy(
  [file]: readonly string[],
  { uncertainty, format = 'text' }: OptionValues,
): Promise<number> {
  const uncertaintyMm = uncertainty === undefined ? null : Number(uncertainty);
  if (uncertaintyMm !== null && !(uncertaintyMm > 0 && uncertaintyMm <= 100))
    return wrongUsage(`--uncertainty is a number of mm above 0 and up to 100, not ${uncertainty}`);
  const { advise, nodeFiles } = bundle('cli-commands');
  return advise(nodeFiles(), targets([file])[0], { uncertaintyMm, asJson: format === 'json' }, output);
}

async function scattered(paths: readonly string[], { format = 'text' }: OptionValues): Promise<number> {
  const { scatter, nodeFiles } = bundle('cli-commands');
  const asked = targets(paths.length === 0 ? ['.'] : paths);
  return scatter(nodeFiles(), asked, format === 'json', output);
}

async function reported(
  rest: readonly string[],
  { output: page, pdf, paper, force = false }: OptionValues,
): Promise<number> {
  // a slip of the hand must not write over a job
  if (page === undefined || !/.\.html?$/i.test(page))
    return wrongUsage('report needs a page to write: -o NAME.html');
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

async function signed([file]: readonly string[], { by = '', date, again }: OptionValues): Promise<number> {
  if (by.trim() === '') return wrongUsage('sign needs who signs: --by NAME');
  const { sign, nodeFiles, textWritten, isDate } = bundle('cli-commands');
  if (date !== undefined && !isDate(date))
    return wrongUsage(`--date is a date such as 2026-03-05, not ${date}`);
  return sign(nodeFiles(), targets([file])[0], {
    ...output,
    by: by.trim(),
    date: date ?? new Date().toISOString().slice(0, 10),
    again: again === true,
    write: (text) => textWritten(file, text, { force: null, isOurs: () => true }),
  });
}

async function begun(): Promise<number> {
  const { initialised, initSaid } = bundle('cli-commands');
  const { all, isRepository } = await initialised(process.cwd());
  const { lines, complaints } = initSaid(all, isRepository);
  lines.forEach(output.print);
  complaints.forEach(output.complain);
  return complaints.length === 0 ? 0 : 2;
}

async function diffed(
  operands: readonly string[],
  { format }: OptionValues,
  afterDashes: number,
): Promise<number> {
  const asked = (['text', 'markdown', 'json'] as const).find((name) => name === (format ?? 'text'));
  if (asked === undefined) return wrongUsage('diff has no such format');
  return bundle('cli-diff').diffed({ operands, afterDashes }, asked, output);
}

async function explained(rules: readonly string[]): Promise<number> {
  const { familyLines, rulePage, unknownRule } = bundle('cli-commands');
  for (const rule of rules) {
    const page = rulePage(rule) ?? familyLines(rule)?.join('\n') ?? null;
    if (page === null) {
      output.complain(`framewright: ${unknownRule(rule)}`);
      return 2;
    }
    output.print(page.trimEnd());
  }
  return 0;
}
