import pc from 'picocolors';
import type { Severity } from '../../model/read/settings';

/** Colour where a terminal wants it; severity is told by its word as well. */
export interface Paint {
  bold(text: string): string;
  dim(text: string): string;
  severity(severity: Severity, text: string): string;
}

export function paintOf(coloured: boolean): Paint {
  const colours = pc.createColors(coloured);
  return {
    bold: colours.bold,
    dim: colours.dim,
    severity: (severity, text) =>
      severity === 'error'
        ? colours.bold(colours.magenta(text))
        : severity === 'warning'
          ? colours.blue(text)
          : colours.dim(text),
  };
}
