/** Text of a file is data, never markup. */
export const escaped = (text: string): string => text.replace(/[\\`*_{}[\]<>()#+\-.!|~$&]/g, '\\$&').replace(/\r?\n/g, ' ');

export const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [`| ${head.join(' | ')} |`, `|${head.map((_, i) => (i === 0 ? ':--' : '--:')).join('|')}|`, ...rows.map((row) => `| ${row.join(' | ')} |`)].join('\n');
