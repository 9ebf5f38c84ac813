import type { Line } from '../../diff/line';
import type { Told } from '../../diff/told';
import { printable } from '../../text/printable';

/** So many lines at most: what is more is folded, each list on one line of its own. */
const mostLines = 59;
/** Of these each has lines of its own; further files are folded. */
const mostFiles = 6;
/** Of a heading with its verdict and blank lines, and of a fold. */
const linesOfFile = 5;
const linesOfFold = 2;
/** A comment on the usual hosts holds 65,536 characters. */
const mostFolded = 50_000;

/** A diff for a comment on a pull request: under 60 lines, the verdict first, what is grave in bold. Of one file the verdict is its heading. */
export function diffMarkdown(verdict: string, told: readonly Told[]): string[] {
  const isGrave = told.some(({ lines }) => lines.some((each) => each.isGrave));
  const shown = told.slice(0, mostFiles);
  const left = mostLines - linesOfFold - 2 - shown.length * (linesOfFile + linesOfFold);
  const each = Math.max(1, Math.floor(left / Math.max(1, shown.length)));
  const budget = { left: mostFolded };
  return [
    isGrave ? `**${plain(verdict)}**` : plain(verdict),
    ...shown.flatMap((file) => [
      ...(told.length === 1 ? [''] : headLines(file)),
      ...listLines(file, each, budget),
    ]),
    ...folded(
      'more files',
      told.slice(mostFiles).map(({ file }) => `${file.path}: ${file.verdict}`),
      budget,
    ),
  ];
}

interface Budget {
  /** Characters that may still be folded. */
  left: number;
}

const headLines = ({ file }: Told): string[] => ['', `### ${plain(file.path)}`, '', plain(file.verdict), ''];

function listLines({ lines }: Told, most: number, budget: Budget): string[] {
  const sorted = [...lines.filter(({ isGrave }) => isGrave), ...lines.filter(({ isGrave }) => !isGrave)];
  const shown = sorted.slice(0, most);
  return [
    ...shown.map(item),
    ...folded(
      'more lines',
      sorted.slice(most).map(({ text }) => text),
      budget,
    ),
  ];
}

const item = ({ text, isGrave }: Line): string => (isGrave ? `- **${plain(text)}**` : `- ${plain(text)}`);

/** A list that opens when it is asked for, on one line. */
function folded(what: string, texts: readonly string[], budget: Budget): string[] {
  if (texts.length === 0) return [];
  const items: string[] = [];
  for (const text of texts) {
    const one = `<li>${plain(text)}</li>`;
    if (one.length > budget.left) break;
    budget.left -= one.length;
    items.push(one);
  }
  const cut = items.length < texts.length ? `, of which ${items.length} are here` : '';
  return [
    '',
    `<details><summary>${texts.length} ${what}${cut}</summary><ul>${items.join('')}</ul></details>`,
  ];
}

/** Names come from files: nothing in them is a mark, a link, a mention or a tag. */
const plain = (text: string): string =>
  printable(text).replace(/[&<>`*_[\]|~#@\\]/g, (mark) => `&#${mark.charCodeAt(0)};`);
