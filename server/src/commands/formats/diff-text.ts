import type { Line } from '../../diff/line';
import type { Told } from '../../diff/told';
import { printable } from '../../text/printable';

/** A diff for a terminal: the verdict first, then each file, what is grave marked `!`. */
export function diffText(verdict: string, told: readonly Told[]): string[] {
  const [only] = told;
  const lines =
    told.length === 1
      ? [verdict, ...only.lines.map(lineText)]
      : [
          verdict,
          ...told.flatMap(({ file, lines }) => ['', `${file.path}: ${file.verdict}`, ...lines.map(lineText)]),
        ];
  return lines.map(printable);
}

const lineText = ({ text, isGrave }: Line): string => `${isGrave ? '  ! ' : '    '}${text}`;
