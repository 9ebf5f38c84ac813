/** What the server calls it. */
export const reopenTitle = 'Reopen Job';

/** The line on which the signature of a job begins; null where it has none. */
export function signOffLine(lines: readonly string[]): number | null {
  const at = lines.findIndex((line) => /^(?:\uFEFF)?["']?sign-off["']?\s*:(?:\s|$)/.test(line));
  return at < 0 ? null : at;
}
