import type { TableUnderstood } from '@framewright/schemas/wire';

/** What a person may do with a table that was read. */
export type ReviewChoice =
  | { readonly do: 'insert' | 'insert and keep' | 'nothing' }
  | { readonly do: 'read anew'; readonly layout: string | null; readonly byPlace: boolean };

interface ReviewLine {
  readonly label: string;
  readonly detail?: string;
  readonly isHeading?: true;
  readonly choice: ReviewChoice;
}

const heading = (label: string): ReviewLine => ({ label, isHeading: true, choice: { do: 'nothing' } });
const told = (label: string): ReviewLine => ({ label, choice: { do: 'nothing' } });

/** The list that shows how a table was understood: first what can be done, then each row that was not. */
export function reviewLines(answer: TableUnderstood, byPlace: boolean): ReviewLine[] {
  const { said, refused, refusedCount, layout, layouts, leftOut } = answer;
  const rest =
    refusedCount === 0
      ? ''
      : `; ${counted(refusedCount, 'row')} left as ${refusedCount === 1 ? 'a comment' : 'comments'}`;
  const insert: ReviewLine = {
    label: `$(${refusedCount === 0 ? 'check' : 'warning'}) Insert ${said}${rest}`,
    detail: `${layout === null ? 'Guessed' : `Layout ${layout}`}: ${answer.understood}`,
    choice: { do: 'insert' },
  };
  return [
    insert,
    ...(layout === null
      ? [
          {
            label: '$(save) Insert, and keep this layout in the settings…',
            detail: answer.guessed.join('   '),
            choice: { do: 'insert and keep' } as const,
          },
        ]
      : []),
    ...(answer.byPlace > 0 && !byPlace
      ? [
          {
            label: `$(location) Take ${counted(answer.byPlace, 'row')} with unknown names for the points that lie there`,
            choice: { do: 'read anew', layout, byPlace: true } as const,
          },
        ]
      : []),
    ...layouts
      .filter((name) => name !== layout)
      .map((name) => ({
        label: `$(list-selection) Read by the layout ${name}`,
        choice: { do: 'read anew', layout: name, byPlace } as const,
      })),
    ...(refused.length > 0 ? [heading('not understood')] : []),
    ...refused.map(told),
    ...(refusedCount > refused.length ? [told(`and ${refusedCount - refused.length} more`)] : []),
    ...(leftOut.length > 0 ? [heading('no points')] : []),
    ...leftOut.map(told),
  ];
}

const counted = (count: number, what: string): string => (count === 1 ? `1 ${what}` : `${count} ${what}s`);

/** A name for a layout, from that of its table. */
export const layoutNameFor = (file: string): string =>
  file
    .replace(/\.[^.]*$/, '')
    .replaceAll(/[^\p{Letter}\p{Number}]+/gu, '-')
    .replaceAll(/^-|-$/g, '')
    .toLowerCase() || 'table';
