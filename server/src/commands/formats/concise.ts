import { printable } from '../../text/printable';
import type { LineFormat } from './format';

/** One line a finding and nothing else, for programs that read lines: `path:line:column: severity rule message`. */
export const concise: LineFormat = {
  kind: 'lines',
  file: ({ path, findings }, paint) =>
    findings.map(({ line, column, severity, ignored, rule, message }) => {
      const where = paint.bold(`${printable(path)}:${line}:${column}`);
      const word = paint.severity(severity, ignored === null ? severity : `ignored-${severity}`);
      return `${where}: ${word} ${rule} ${printable(message)}`;
    }),
  end: () => [],
};
