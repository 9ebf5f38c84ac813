/** Text of a file is data, never markup: nor does a bare address in it become a link. */
export const escaped = (text: string): string =>
  text.replace(/[\\`*_{}[\]<>()#+\-.!|~$&:@]/g, '\\$&').replace(/[\r\n\u2028\u2029]+/g, ' ');

/** A table whose columns of words stand left and columns of figures right. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const isFigure = head.map((_, i) => rows.every((row) => /^([-±<>−]?\s?[\d.]|$)/.test(row[i])));
  const cells = (row: readonly string[]) => `| ${row.map((cell) => `${cell}&nbsp;&nbsp;`).join(' | ')} |`;
  return [
    cells(head),
    `|${isFigure.map((right) => (right ? '--:' : ':--')).join('|')}|`,
    ...rows.map(cells),
  ].join('\n');
}
