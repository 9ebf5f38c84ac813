import {
  type CommandName,
  commands,
  commonOptions,
  factsOf,
  isCommand,
  type OptionFacts,
} from './command-table';

/** What a shell completes, made from the table of commands. */

const shells = ['bash', 'zsh', 'fish'] as const;
type Shell = (typeof shells)[number];

export const isShell = (word: string): word is Shell => shells.some((shell) => shell === word);

const names: readonly CommandName[] = Object.keys(commands).filter(isCommand);

/** Options that a person may give. */
const optionsOf = (name: CommandName): [string, OptionFacts][] =>
  Object.entries({ ...factsOf(name).options, ...commonOptions }).filter(([, { says }]) => says !== undefined);

/** Words that a command takes in the place of files; null: files. */
function operandsOf(name: CommandName): readonly string[] | null {
  if (name === 'help') return names;
  if (name === 'completion') return shells;
  return (factsOf(name).operands?.most ?? 1) === 0 || name === 'explain' ? [] : null;
}

export const completion = (shell: Shell): string => ({ bash, zsh, fish })[shell]();

function bash(): string {
  const words = (list: readonly string[]): string =>
    `COMPREPLY=($(compgen -W '${list.join(' ')}' -- "$word"))`;
  const choices = names.flatMap((name) =>
    optionsOf(name).flatMap(([option, { choices: list }]) =>
      list === undefined ? [] : [`    '${name} --${option}') ${words(list)}; return ;;`],
    ),
  );
  const options = names.map(
    (name) => `      ${name}) ${words(optionsOf(name).map(([each]) => `--${each}`))} ;;`,
  );
  const operands = names.flatMap((name) => {
    const list = operandsOf(name);
    return list === null ? [] : [`    ${name}) ${words(list)} ;;`];
  });
  return `# framewright completion bash: source it, or keep it where bash-completion looks
_framewright() {
  local word=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]} command=\${COMP_WORDS[1]}
  COMPREPLY=()
  # --format=WORD is three words to bash
  if [ "$before" = = ]; then before=\${COMP_WORDS[COMP_CWORD-2]}; fi
  if [ "$COMP_CWORD" -eq 1 ]; then
    ${words(names)}
    return
  fi
  case "$command $before" in
${choices.join('\n')}
  esac
  if [[ $word == -* ]]; then
    case "$command" in
${options.join('\n')}
    esac
    return
  fi
  case "$command" in
${operands.join('\n')}
    *) compopt -o filenames 2>/dev/null; COMPREPLY=($(compgen -f -- "$word")) ;;
  esac
}
complete -F _framewright framewright
`;
}

const quoted = (text: string): string => `'${text.replaceAll("'", `'\\''`)}'`;

function zsh(): string {
  const described = names.map(
    (name) => `    ${quoted(`${name}:${factsOf(name).says.replaceAll(':', '\\:')}`)}`,
  );
  const specOf = ([option, { type, short, value, choices, says = '' }]: [string, OptionFacts]): string[] => {
    const told = `[${says.replace(/[[\]:\\]/g, '\\$&')}]`;
    const list = choices === undefined ? '_files' : `(${choices.join(' ')})`;
    const argument = type === 'string' ? `:${value ?? 'NAME'}:${list}` : '';
    // its word follows, or stands behind a =
    const long = type === 'string' ? `--${option}=` : `--${option}`;
    const forms = [long, ...(short === undefined ? [] : [`-${short}`])];
    return forms.map((form) => quoted(`${form}${told}${argument}`));
  };
  const cases = names.map((name) => {
    const list = operandsOf(name);
    const rest =
      list === null ? "'*:file:_files'" : list.length === 0 ? '' : quoted(`1:word:(${list.join(' ')})`);
    return `    ${name}) _arguments ${[...optionsOf(name).flatMap(specOf), rest].join(' ').trim()} ;;`;
  });
  return `#compdef framewright
_framewright() {
  local -a commands
  commands=(
${described.join('\n')}
  )
  if (( CURRENT == 2 )); then
    _describe command commands
    return
  fi
  (( CURRENT-- ))
  shift words
  case $words[1] in
${cases.join('\n')}
  esac
}
# as a file in $fpath it is loaded when it is first asked
if [[ $funcstack[1] == _framewright ]]; then _framewright "$@"; else compdef _framewright framewright; fi
`;
}

function fish(): string {
  const told = (says: string): string => `-d '${says.replace(/[\\']/g, '\\$&')}'`;
  const begun = 'complete -c framewright';
  const lines = names
    .flatMap((name) => {
      const seen = `${begun} -n '__framewright_is ${name}'`;
      const list = operandsOf(name);
      return [
        `${begun} -n __fish_use_subcommand -f -a ${name} ${told(factsOf(name).says)}`,
        ...(list === null ? [] : [`${seen} -f${list.length === 0 ? '' : ` -a '${list.join(' ')}'`}`]),
        ...optionsOf(name).map(([option, { type, short, choices, says = '' }]) => {
          const letter = short === undefined ? '' : ` -s ${short}`;
          const argument = choices ? ` -x -a '${choices.join(' ')}'` : type === 'string' ? ' -r' : '';
          return `${seen} -l ${option}${letter}${argument} ${told(says)}`;
        }),
      ];
    })
    .map((line) => `${line}\n`)
    .join('');
  return `# the first word alone is the command: \`help check\` takes no options of check
function __framewright_is
  set -l words (commandline -opc)
  test (count $words) -gt 1; and test $words[2] = $argv[1]
end
${lines}`;
}
