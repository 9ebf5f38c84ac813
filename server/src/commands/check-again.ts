import type { Output } from './check-selected';

/** What a check said, and the code that it would exit with. */
export interface Said {
  /** A line a finding. */
  readonly findings: readonly string[];
  /** What is said beside them. */
  readonly complaints: readonly string[];
  readonly code: number;
}

/** A check whose lines are kept instead of printed. @param complaints said before it */
export async function saidBy(
  check: (output: Output) => Promise<number>,
  complaints: readonly string[] = [],
): Promise<Said> {
  const said = { findings: [] as string[], complaints: [...complaints] };
  const code = await check({
    print: (line) => void said.findings.push(line),
    complain: (line) => void said.complaints.push(line),
  });
  return { ...said, code: complaints.length > 0 ? 2 : code };
}

/**
 * All that the first check says; of each later one what came and what is gone. Nothing where nothing changed, or where a finding only
 * stands on another line now.
 */
export function newsBetween(before: Said | null, now: Said): string[] {
  const end = endOf(now);
  if (before === null) return [...now.complaints, ...now.findings, end];
  const gone = [...without(before.complaints, now.complaints), ...left(before.findings, now.findings)];
  const come = [...without(now.complaints, before.complaints), ...left(now.findings, before.findings)];
  return gone.length + come.length === 0 ? [] : [...gone.map((line) => `gone: ${line}`), ...come, end];
}

function endOf({ findings, code }: Said): string {
  const count =
    findings.length === 0
      ? 'nothing found'
      : findings.length === 1
        ? '1 finding'
        : `${findings.length} findings`;
  return code === 2 ? `${count}, but not everything could be checked` : count;
}

/** Findings that the others do not hold, in the same place or another. */
function left(lines: readonly string[], others: readonly string[]): string[] {
  return without(without(lines, others), without(others, lines), withoutPlace);
}

/** `path:line:column: …`, coloured or not, without the numbers, which a row put in above them changes. */
const withoutPlace = (line: string): string => line.replace(/:\d+:\d+(?=\S{0,5}: )/, '');

/** A line that stands twice here and once there is left once. */
function without(
  lines: readonly string[],
  others: readonly string[],
  keyOf: (line: string) => string = (line) => line,
): string[] {
  const counts = new Map<string, number>();
  for (const line of others) counts.set(keyOf(line), (counts.get(keyOf(line)) ?? 0) + 1);
  return lines.filter((line) => {
    const count = counts.get(keyOf(line)) ?? 0;
    counts.set(keyOf(line), count - 1);
    return count <= 0;
  });
}
