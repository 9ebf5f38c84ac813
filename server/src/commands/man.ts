import { type CommandFacts, commands, commonOptions, type OptionFacts, oneOf } from './command-table';
import { exits } from './help';

/** The page of the manual, in roff with the macros of man(7), made from the table of commands. */
export function manPage(version: string): string {
  return [
    `.TH FRAMEWRIGHT 1 "" ${argument(`framewright ${version}`)} ${argument('User Commands')}`,
    '.SH NAME',
    `framewright \\- ${text('judges the measurements of a hit car body against its reference dimensions')}`,
    '.SH SYNOPSIS',
    `.B framewright\n${text('COMMAND [OPTION…] [OPERAND…]')}`,
    '.SH COMMANDS',
    ...Object.values(commands).flatMap(ofCommand),
    '.SH OPTIONS OF ALL COMMANDS',
    ...Object.entries(commonOptions).flatMap(ofOption),
    '.SH EXIT STATUS',
    text(exits.replace(/^exit: /, '').replace(/\s+/g, ' ')),
    '.SH CAUTION',
    text(
      'It covers dimensions only. The procedure of the maker comes first, then local codes and licensed practice.',
    ),
    '',
  ].join('\n');
}

function ofCommand({ usage, says, options }: CommandFacts): string[] {
  const listed = Object.entries(options).filter(([, each]) => each.says !== undefined);
  return [
    '.TP',
    `.B ${text(`framewright ${usage}`)}`,
    text(says),
    ...(listed.length === 0 ? [] : ['.RS', ...listed.flatMap(ofOption), '.RE']),
  ];
}

function ofOption([name, { short, type, value, choices, says = '' }]: [string, OptionFacts]): string[] {
  const given = type === 'string' ? ` ${value ?? (choices === undefined ? 'NAME' : oneOf(choices))}` : '';
  return ['.TP', `.B ${text(`${short === undefined ? '' : `-${short}, `}--${name}${given}`)}`, text(says)];
}

/** A line of text in roff: no character of it is a command, and what is not ASCII is named by its code. */
const text = (line: string): string =>
  line
    .replaceAll('\\', '\\e')
    .replaceAll('-', '\\-')
    .replaceAll("'", '\\(aq')
    .replace(/^\./, '\\&.')
    .replace(
      /[^\n -~]/gu,
      (character) => `\\[u${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}]`,
    );

const argument = (word: string): string => `"${text(word)}"`;
