import {
  type CommandFacts,
  type CommandName,
  commands,
  commonOptions,
  factsOf,
  type OptionFacts,
  oneOf,
} from './command-table';

/** How the program is used, made from the table of commands. */

type Row = readonly [left: string, right: string];
type Option = readonly [name: string, facts: OptionFacts];

const all: readonly CommandFacts[] = Object.values(commands);

/** What the exit codes mean. */
export const exits = `exit: 0 nothing wrong, 1 a malformed file or a closed job that fails, 2 wrong usage, a file that cannot be read or written,
      output that cannot be written, or where the program itself fails`;

/** `--help`: every command with its options. */
export function wholeHelp(): string {
  const rows = all.flatMap((command): Row[] => [
    [`  ${command.usage}`, command.says],
    ...optionRows(listed(command.options).filter((option) => !isInUsage(command.usage, option))),
  ]);
  return [
    'Judges the measurements of a hit car body against its reference dimensions.',
    '',
    'usage: framewright COMMAND',
    '',
    ...aligned([...rows, ...optionRows(listed(commonOptions))]),
    '',
    exits,
  ].join('\n');
}

/** `COMMAND --help`: one command with all its options. */
export function commandHelp(name: CommandName): string {
  const { usage, says, options } = factsOf(name);
  return [
    `framewright ${name}: ${says}`,
    '',
    `usage: framewright ${usage}${Object.keys(options).length > 0 ? ' [OPTION…]' : ''}`,
    '',
    ...aligned(optionRows(listed({ ...options, ...commonOptions }))),
    '',
    exits,
  ].join('\n');
}

/** A line a command, as the README shows them. */
export const commandLines = (): string[] =>
  aligned(all.map(({ usage, says }): Row => [`npx framewright ${usage}`, says]));

/** Options that stand in the usage line already need no line of their own beside it. */
function isInUsage(usage: string, [name, { short }]: Option): boolean {
  const words = usage.split(' ');
  return words.includes(`--${name}`) || (short !== undefined && words.includes(`-${short}`));
}

const listed = (options: Readonly<Record<string, OptionFacts>>): Option[] =>
  Object.entries(options).filter(([, { says }]) => says !== undefined);

const optionRows = (options: readonly Option[]): Row[] =>
  options.flatMap(([name, { short, value, choices = [], says = '' }]): Row[] => {
    const isLong = choices.length > fewChoices;
    const given = value ?? (isLong ? 'NAME' : choices.join('|'));
    const head = short === undefined ? '      ' : `  -${short}, `;
    const row: Row = [`${head}--${name}${given === '' ? '' : ` ${given}`}`, says];
    return isLong ? [row, ['', `NAME: ${oneOf(choices)}`]] : [row];
  });

/** More of them have a line of their own. */
const fewChoices = 4;

function aligned(rows: readonly Row[]): string[] {
  const width = Math.max(...rows.map(([left]) => left.length)) + 2;
  return rows.map(([left, right]) => left.padEnd(width) + right);
}
