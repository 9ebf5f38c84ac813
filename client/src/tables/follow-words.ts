/** What is told of a table that is followed. */
export interface FollowState {
  readonly table: string;
  readonly job: string;
  readonly rows: number;
  readonly left: number;
  /** Why nothing comes at the moment; null where it does. */
  readonly waits: string | null;
}

export const followText = ({ table, rows, left, waits }: FollowState): string => {
  const comments = left === 0 ? '' : `, ${left} not understood`;
  const icon = waits === null ? (left === 0 ? 'eye' : 'warning') : 'watch';
  return `$(${icon}) ${table}: ${rows === 1 ? '1 row' : `${rows} rows`}${comments}`;
};

export const followTip = ({ table, job, left, waits }: FollowState): string =>
  [
    `What is written into ${table} goes into ${job}.`,
    ...(left === 0 ? [] : ['Rows that are not understood are comments there.']),
    ...(waits === null ? [] : [`Waiting: ${waits}.`]),
    'A click stops it.',
  ].join(' ');
