import type { Output } from './check-selected';

/** What a check said, a line a finding, and the code that it would exit with. */
export interface Said {
  readonly lines: readonly string[];
  readonly code: number;
}

/** A check whose lines are kept instead of printed, in the order in which they were said. */
export async function saidBy(check: (output: Output) => Promise<number>): Promise<Said> {
  const lines: string[] = [];
  const keep = (line: string): void => {
    lines.push(line);
  };
  const code = await check({ print: keep, complain: keep });
  return { lines, code };
}

/** All that the first check says, a line a finding; of each later one what came and what is gone. Nothing where nothing changed. */
export function newsBetween(before: Said | null, now: Said): string[] {
  const end = now.lines.length === 0 ? 'nothing found' : counted(now.lines.length);
  if (before === null) return [...now.lines, end];
  const gone = without(before.lines, now.lines);
  const come = without(now.lines, before.lines);
  return gone.length + come.length === 0 ? [] : [...gone.map((line) => `gone: ${line}`), ...come, end];
}

const counted = (count: number): string => (count === 1 ? '1 finding' : `${count} findings`);

/** A line that stands twice here and once there is left once. */
function without(lines: readonly string[], others: readonly string[]): string[] {
  const left = new Map<string, number>();
  for (const line of others) left.set(line, (left.get(line) ?? 0) + 1);
  return lines.filter((line) => {
    const count = left.get(line) ?? 0;
    left.set(line, count - 1);
    return count <= 0;
  });
}
