import { formatNames } from './formats/format-names';

/**
 * The commands and their options. Parsing, wrong-usage messages, `--help` and the block in the README are made from this table
 * and from nothing else. It is loaded at every start: it imports no judging.
 */

export interface OptionFacts {
  readonly type: 'boolean' | 'string';
  readonly short?: string;
  /** What its value stands for, `PAGE`. */
  readonly value?: string;
  /** The values that it takes, where these are few. */
  readonly choices?: readonly string[];
  /** For `--help`; an option without it is for programs. */
  readonly says?: string;
}

export interface CommandFacts {
  /** As it is typed, without the program's name. */
  readonly usage: string;
  readonly says: string;
  /** How many operands it takes, and what they are, for who gives fewer or more. */
  readonly operands?: { readonly least: number; readonly most: number; readonly are: string };
  readonly options: Readonly<Record<string, OptionFacts>>;
  /** Called by another program with names as they are: what begins with a dash is no option. */
  readonly takesNames?: true;
}

const many = Number.POSITIVE_INFINITY;

/** The same in all commands that have it. */
const dryRunSays = 'print what would be written, write nothing';

/** What is written, for the commands that write a file. */
const written = {
  output: {
    type: 'string',
    short: 'o',
    value: 'OUT',
    says: 'the file to write: NAME.html, of a table NAME.csv or .xlsx, of a drawing NAME.svg or .png',
  },
  force: { type: 'boolean', says: 'write over a file that is read-only, or not one of ours' },
} as const;

/** For the commands that add to a file. */
const intoFile = {
  into: { type: 'string', value: 'FILE', says: 'the file to write in; a table may begin a new chassis file' },
} as const;

export const commands = {
  check: {
    usage: 'check [PATH…]',
    says: 'findings in files and folders (default: this folder), then a summary of each job',
    options: {
      open: { type: 'boolean', says: 'errors in open jobs count too' },
      verbose: { type: 'boolean', short: 'v', says: 'print findings for information as well' },
      summaries: { type: 'boolean', says: "print twist, sweep and bend of each job's newest stage" },
      format: { type: 'string', choices: formatNames, says: 'how it is printed (default: text)' },
      changed: { type: 'boolean', says: 'what changed since the last commit, and what rests on it' },
      staged: { type: 'boolean', says: 'what is staged, as it is staged, and what rests on it' },
      since: { type: 'string', value: 'REV', says: 'what changed since a revision, and what rests on it' },
      dependents: {
        type: 'boolean',
        says: 'also what rests on the chassis files that are named: variants and jobs',
      },
      watch: {
        type: 'boolean',
        says: 'check again whenever a file changes, and tell what changed; until Ctrl-C',
      },
      'stdin-filename': {
        type: 'string',
        value: 'PATH',
        says: 'judge what comes in (`-`) as if it stood in this file',
      },
      'max-warnings': {
        type: 'string',
        value: 'N',
        says: 'exit 1 as well where more warnings than this count',
      },
      'write-baseline': {
        type: 'boolean',
        says: 'keep what is found now as known: it is counted from then on, and not shown',
      },
      'update-baseline': { type: 'boolean', says: 'take out of the baseline what is gone; nothing is added' },
      'no-cache': { type: 'boolean', says: 'judge every file anew, and keep nothing for next time' },
      'exit-zero': { type: 'boolean', says: 'exit 0 whatever is found' },
    },
  },
  fix: {
    usage: 'fix PATH…',
    says: 'mend what can be mended without changing a figure, a verdict or a signature',
    operands: { least: 1, most: many, are: 'a file or a folder' },
    options: {
      unsafe: { type: 'boolean', says: 'take fixes too that change what a file means; none in a signed job' },
      'dry-run': { type: 'boolean', says: dryRunSays },
    },
  },
  format: {
    usage: 'format PATH…',
    says: 'columns set straight as in the editor; no value, comment or order changes',
    operands: { least: 1, most: many, are: 'a file or a folder' },
    options: {
      check: {
        type: 'boolean',
        says: 'name the files that would change, write nothing, exit 1 if there are any',
      },
    },
  },
  inspect: {
    usage: 'inspect --json FILE…',
    says: 'all figures, for other programs (inspect/1)',
    operands: { least: 1, most: many, are: 'a file' },
    options: { json: { type: 'boolean', says: 'print JSON: there is no other form' } },
  },
  plan: {
    usage: 'plan FILE [PART]',
    says: 'one plan for the job: what to pull together, in which order, where to hold',
    operands: { least: 1, most: 2, are: 'a readings file and, if you like, a part' },
    options: {},
  },
  advise: {
    usage: 'advise FILE',
    says: 'what to read so that every point can be decided: of a job, or of a body',
    operands: { least: 1, most: 1, are: 'one readings or chassis file' },
    options: {
      uncertainty: {
        type: 'string',
        value: 'U',
        says: "the instrument's standard uncertainty in mm (default: the job's, else of the settings)",
      },
      format: { type: 'string', choices: ['text', 'json'], says: 'how it is printed (default: text)' },
    },
  },
  report: {
    usage: 'report FILE -o PAGE',
    says: 'the dimensional record of a job, one HTML page to keep and to print',
    operands: { least: 1, most: 1, are: 'one readings file' },
    options: {
      ...written,
      pdf: {
        type: 'boolean',
        says: 'print it as PDF beside the page as well, by a Chromium of this machine',
      },
      paper: {
        type: 'string',
        choices: ['a4', 'letter'],
        says: 'what it is laid out for (default: the PDF a4, the page what it is printed on)',
      },
    },
  },
  sign: {
    usage: 'sign JOB --by NAME',
    says: 'sign the dimensions of a job; refused while anything stands against it',
    operands: { least: 1, most: 1, are: 'one readings file' },
    options: {
      by: { type: 'string', value: 'NAME', says: 'who signs' },
      date: { type: 'string', value: 'D', says: 'when, such as 2026-03-05 (default: today)' },
      again: { type: 'boolean', says: 'sign anew; the old signature is kept under `earlier`' },
    },
  },
  import: {
    usage: 'import TABLE --into FILE',
    says: 'rows of a table (CSV, other delimited text, .xlsx) into a job or a chassis file',
    operands: { least: 1, most: 1, are: 'one table' },
    options: {
      ...intoFile,
      measure: { type: 'string', value: 'NAME', says: 'the name of the measure that a job gets' },
      layout: {
        type: 'string',
        value: 'NAME',
        says: 'a layout under `tables:` of the settings (default: guessed)',
      },
      'by-place': {
        type: 'boolean',
        says: 'take a row with an unknown name for the one unread point it lies at',
      },
      partial: { type: 'boolean', says: 'write although rows were not understood, these as comments' },
      'dry-run': { type: 'boolean', says: dryRunSays },
    },
  },
  export: {
    usage: 'export FILE… -o TABLE',
    says: 'readings and figures of jobs, or a body’s reference, as a table',
    operands: { least: 1, most: many, are: 'readings files, or one chassis file' },
    options: {
      ...written,
      columns: { type: 'string', value: 'LIST', says: 'which columns, with commas between (default: all)' },
    },
  },
  reference: {
    usage: 'reference JOB… --into CHASSIS',
    says: 'new reference points of a body, from cars that were measured',
    operands: { least: 1, most: many, are: 'readings files, one a car' },
    options: {
      ...intoFile,
      points: {
        type: 'string',
        value: 'LIST',
        says: 'which points, with commas between (default: all that the chassis file does not have)',
      },
      replace: {
        type: 'boolean',
        says: 'write points of --points anew that the file has already, whose source is then the cars',
      },
      'dry-run': { type: 'boolean', says: dryRunSays },
    },
  },
  scatter: {
    usage: 'scatter [PATH…]',
    says: 'how sound cars and instruments scatter, measured over all jobs (default: this folder)',
    options: {
      format: { type: 'string', choices: ['text', 'json'], says: 'how it is printed (default: text)' },
    },
  },
  sheet: {
    usage: 'sheet FILE -o PAGE',
    says: 'a page to take to the car: points in measuring order, a drawing, boxes to write in',
    operands: { least: 1, most: 1, are: 'one readings or chassis file' },
    options: { ...written },
  },
  draw: {
    usage: 'draw FILE -o DRAWING',
    says: 'a drawing of the record, as SVG or PNG',
    operands: { least: 1, most: 1, are: 'one readings or chassis file' },
    options: {
      ...written,
      view: {
        type: 'string',
        choices: ['plan', 'left', 'right', 'front'],
        says: 'from where (default: plan)',
      },
    },
  },
  chassis: {
    usage: 'chassis FILE',
    says: 'what a chassis file holds and lacks, how old its sources are, which jobs rest on it',
    operands: { least: 1, most: 1, are: 'one chassis file' },
    options: {},
  },
  init: {
    usage: 'init',
    says: 'begin a repository in this folder: settings, git hook, CI; nothing is written over',
    operands: { least: 0, most: 0, are: 'no path: it works in this folder' },
    options: {},
  },
  diff: {
    usage: 'diff [A [B]] [-- PATH…]',
    says: 'what changed between revisions or two files, in mm, and which jobs that touches',
    options: {
      format: {
        type: 'string',
        choices: ['text', 'markdown', 'json'],
        says: 'how it is printed (default: text)',
      },
    },
  },
  'git-diff': {
    usage: 'git-diff PATH…',
    says: 'what changed in one file, in mm: for `git diff` to call',
    operands: { least: 1, most: 9, are: 'the 1, 7 or 9 arguments that git gives' },
    options: {},
    takesNames: true,
  },
  textconv: {
    usage: 'textconv FILE',
    says: 'one file as plain lines, a fact a line, for git to compare',
    operands: { least: 1, most: 1, are: 'one file' },
    options: {},
    takesNames: true,
  },
  rules: {
    usage: 'rules',
    says: 'all rules, a line each: name, level, what it reports',
    operands: { least: 0, most: 0, are: 'no path: it lists the rules of the program' },
    options: {
      format: { type: 'string', choices: ['text', 'json'], says: 'how it is printed (default: text)' },
    },
  },
  explain: {
    usage: 'explain RULE',
    says: 'what a rule means and how to mend what it reports; of a family (`base`) its rules',
    operands: { least: 1, most: many, are: 'the name of a rule' },
    options: {},
  },
  completion: {
    usage: 'completion SHELL',
    says: 'a script with which bash, zsh or fish completes commands and options',
    operands: { least: 1, most: 1, are: 'bash, zsh or fish' },
    options: {},
  },
  man: {
    usage: 'man',
    says: 'the page of the manual, in roff: `framewright man | man -l -`',
    operands: { least: 0, most: 0, are: 'no path' },
    options: {},
  },
  lsp: {
    usage: 'lsp --stdio',
    says: 'the language server, for an editor',
    options: {
      stdio: { type: 'boolean', says: 'talk over standard input and output' },
      'node-ipc': { type: 'boolean' },
      clientProcessId: { type: 'string' },
    },
  },
  help: {
    usage: 'help [COMMAND]',
    says: 'how the program, or one command, is used',
    operands: { least: 0, most: 1, are: 'at most one command' },
    options: {},
  },
} as const satisfies Record<string, CommandFacts>;

export type CommandName = keyof typeof commands;

/** What every command takes. */
export const commonOptions = {
  help: { type: 'boolean', short: 'h', says: 'how it is used' },
  version: { type: 'boolean', short: 'V', says: 'the version of the program' },
} as const satisfies Record<string, OptionFacts>;

type Intersection<Union> = (Union extends unknown ? (each: Union) => void : never) extends (
  all: infer All,
) => void
  ? All
  : never;
/** Of all commands: an option that several take is the same in each, but for its choices. */
type AllOptions = Intersection<(typeof commands)[CommandName]['options']> & typeof commonOptions;

type ValueOf<Facts> = Facts extends { choices: readonly (infer Choice)[] }
  ? Choice
  : Facts extends { type: 'boolean' }
    ? boolean
    : string;
type FactsIn<Command, Name> = Command extends { options: infer Options }
  ? Name extends keyof Options
    ? Options[Name]
    : never
  : never;
/** What was given, by option; of an option with choices, one that some command takes. */
export type OptionValues = {
  readonly [Name in keyof AllOptions]?: Name extends keyof typeof commonOptions
    ? ValueOf<AllOptions[Name]>
    : ValueOf<FactsIn<(typeof commands)[CommandName], Name>>;
};

export const allOptions: AllOptions = Object.assign(
  {},
  ...Object.values(commands).map(({ options }) => options),
  commonOptions,
);

export const isCommand = (name: string): name is CommandName => Object.hasOwn(commands, name);

export const factsOf = (name: CommandName): CommandFacts => commands[name];

/** `a`, `a or b`, `a, b or c`. */
export const oneOf = (words: readonly string[]): string =>
  words.length < 2 ? words.join() : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
