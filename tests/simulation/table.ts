import { holds, type Requirement } from './requirements';
import type { Count } from './tally';

/** Counts as Markdown. */

export const percent = ({ hits, of }: Count): string =>
  of === 0 ? '–' : `${((100 * hits) / of).toFixed(1)} %`;
export const ofAll = ({ hits, of }: Count): string => (of === 0 ? '–' : `${hits} / ${of}`);

export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map((_, i) => (i === 0 ? '---' : '---:'))), ...rows.map(line)].join('\n');
}

export const title = (text: string): string => `**${text}**\n\n`;

export function requirementTable(name: string, requirements: readonly Requirement[]): string {
  const rows = requirements.map((each) => {
    const asked =
      each.least === 0
        ? `at most ${+(100 * each.most).toFixed(2)} %`
        : each.most === 1
          ? `at least ${100 * each.least} %`
          : `${100 * each.least}–${100 * each.most} %`;
    const verdict = holds(each);
    return [
      each.what,
      asked,
      percent(each.count),
      ofAll(each.count),
      verdict === null ? '–' : verdict ? 'holds' : '**does not hold**',
    ];
  });
  return title(name) + table(['', 'asked', 'found', 'cases', ''], rows);
}
