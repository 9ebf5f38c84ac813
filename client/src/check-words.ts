/** What a task of ours asks `framewright check` for. */
interface Check {
  readonly paths?: readonly string[];
  /** Whether errors in open jobs count too. */
  readonly open?: boolean;
}

export const checkArguments = ({ paths = [], open = false }: Check): string[] => [
  'check',
  ...(open ? ['--open'] : []),
  // so that a file's name is never taken for an option
  '--',
  ...(paths.length > 0 ? paths : ['.']),
];

export const checkName = ({ paths = [], open = false }: Check): string =>
  [`check${paths.length > 0 ? ` ${paths.join(' ')}` : ''}`, ...(open ? ['open jobs count too'] : [])].join(
    ', ',
  );
