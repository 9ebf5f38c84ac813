import { parseArgs } from 'node:util';
import {
  allOptions,
  type CommandName,
  commands,
  commonOptions,
  factsOf,
  isCommand,
  type OptionFacts,
  type OptionValues,
  oneOf,
} from '../commands/command-table';

/** What the command line was asked for, by the table of commands. */
type Asked =
  | { readonly kind: 'version' }
  /** Of one command; null: of all. */
  | { readonly kind: 'help'; readonly command: CommandName | null }
  | {
      readonly kind: 'run';
      readonly command: Exclude<CommandName, 'help'>;
      readonly operands: readonly string[];
      readonly values: OptionValues;
      /** How many of the operands, the last ones, stood behind `--`. */
      readonly afterDashes: number;
    }
  | { readonly kind: 'wrong'; readonly message: string };

/** The known name that a mistyped one most likely means. */
type Nearest = (name: string, known: readonly string[]) => string | undefined;

/** @param meant called only where a name is unknown */
export function askedBy(args: readonly string[], meant: Nearest): Asked {
  let parsed: Parsed;
  try {
    parsed = parsedArguments(args);
  } catch (error) {
    return wrong(parsingFault(args, error, meant));
  }
  const { values, positionals, tokens } = parsed;
  const [command, ...operands] = positionals;
  if (values.version) return { kind: 'version' };
  if (command === undefined) return values.help ? help(null) : wrong('a command is missing');
  if (!isCommand(command)) return unknownCommand(command, meant);
  const stray = Object.keys(values).find((name) => !Object.hasOwn(optionsOf(command), name));
  if (stray !== undefined) return wrong(`${command} has no --${stray}`);
  if (values.help) return help(command);
  if (!areChosen(values, command)) return wrong(wrongChoice(values, command, meant) ?? '');
  const { least = 0, most = Number.POSITIVE_INFINITY, are } = factsOf(command).operands ?? {};
  if (operands.length < least || operands.length > most) return wrong(`${command} needs ${are}`);
  if (command !== 'help') return { kind: 'run', command, operands, values, afterDashes: afterDashes(tokens) };
  const [about] = operands;
  if (about === undefined) return help(null);
  return isCommand(about) ? help(about) : unknownCommand(about, meant);
}

const wrong = (message: string): Asked => ({ kind: 'wrong', message });
const help = (command: CommandName | null): Asked => ({ kind: 'help', command });

const parsedArguments = (args: readonly string[]) =>
  parseArgs({
    args: namesKept(args),
    options: allOptions,
    allowPositionals: true,
    strict: true,
    tokens: true,
  });
type Parsed = ReturnType<typeof parsedArguments>;

/** A program that calls with names does not know what they begin with; one word alone may be a person's `--help`. */
function namesKept([command, ...rest]: readonly string[]): string[] {
  const areNames = command !== undefined && isCommand(command) && factsOf(command).takesNames === true;
  const isAsked = rest.length === 1 && /^(-h|--help|-V|--version)$/.test(rest[0]);
  return areNames && !isAsked
    ? [command, '--', ...rest]
    : [command, ...rest].filter((each) => each !== undefined);
}

function afterDashes(tokens: Parsed['tokens']): number {
  const at = tokens.findIndex(({ kind }) => kind === 'option-terminator');
  return at < 0 ? 0 : tokens.slice(at).filter(({ kind }) => kind === 'positional').length;
}

const optionsOf = (command: CommandName): Readonly<Record<string, OptionFacts>> => ({
  ...factsOf(command).options,
  ...commonOptions,
});

const unknownCommand = (name: string, meant: Nearest): Asked =>
  wrong(`there is no command ${name}${orRather(meant(name, Object.keys(commands)))}`);

const orRather = (meant: string | undefined): string =>
  meant === undefined ? '' : `; did you mean ${meant}?`;

/** What the parser says of it, and the option that was likely meant. */
function parsingFault(args: readonly string[], error: unknown, meant: Nearest): string {
  const [says] = (error instanceof Error ? error.message : String(error)).split('. ');
  const { tokens, positionals } = parseArgs({
    args: [...args],
    options: allOptions,
    allowPositionals: true,
    strict: false,
    tokens: true,
  });
  const unknown = tokens.find((token) => token.kind === 'option' && !Object.hasOwn(allOptions, token.name));
  if (unknown?.kind !== 'option' || unknown.name.length < 2) return says;
  const [command] = positionals;
  const options = command !== undefined && isCommand(command) ? optionsOf(command) : allOptions;
  const name = meant(unknown.name, Object.keys(options));
  return `${says}${orRather(name && `--${name}`)}`;
}

const areChosen = (values: Parsed['values'], command: CommandName): values is OptionValues =>
  wrongChoice(values, command, () => undefined) === null;

function wrongChoice(
  values: Readonly<Record<string, unknown>>,
  command: CommandName,
  meant: Nearest,
): string | null {
  const options = optionsOf(command);
  for (const [name, value] of Object.entries(values)) {
    const { choices } = options[name];
    if (choices === undefined || choices.some((choice) => choice === value)) continue;
    const given = String(value);
    // of two letters any other is near
    return `--${name} is ${oneOf(choices)}${orRather(given.length > 2 ? meant(given, choices) : undefined)}`;
  }
  return null;
}
