import { BlockScanner } from './blocks';
import { oneDocumentOf } from './document';
import { Reading } from './reading';
import { structureLinesOf } from './structure';
import { offsetsOf, type TextRule, type TextTree } from './tree';

/** UTF-16 units. The largest job seen has some hundred readings; this is room for a hundred thousand. */
const LONGEST = 8 * 1024 * 1024;

/** Past this many a file is not mended problem by problem, and nobody reads on. */
const MOST_PROBLEMS = 1000;

/** The tree of a YAML text; never throws, and always as much of a tree as can be read. */
export const parseText = (text: string): TextTree => {
  if (text.length > LONGEST) return refused(text, 'text/too-large', 'the file is larger than 8 MB');
  if (isBinary(text)) return refused(text, 'text/syntax', 'this is not a text file');
  const document = oneDocumentOf(text);
  const reading = new Reading(document.text, document.conflicts);
  for (const { message, start, end } of document.slips) reading.reportSyntax(message, start, end);
  const lines = structureLinesOf(document.text, document.from, document.to);
  const root = new BlockScanner(reading, lines).root();
  return { text, root, problems: inTextOrder(reading.problems.list).slice(0, MOST_PROBLEMS) };
};

const inTextOrder = <Placed extends { place: Parameters<typeof offsetsOf>[0] }>(list: Placed[]): Placed[] =>
  list
    .map((problem) => ({ problem, start: offsetsOf(problem.place).start }))
    .sort((a, b) => a.start - b.start)
    .map(({ problem }) => problem);

const refused = (text: string, rule: TextRule, message: string): TextTree => {
  const firstLine = /[\r\n]/.exec(text.slice(0, 200))?.index ?? Math.min(text.length, 200);
  const place = { block: { start: 0 }, start: 0, end: Math.max(firstLine, 1) };
  return { text, root: null, problems: [{ rule, message, place }] };
};

/** A NUL, or many other controls or bytes that were no UTF-8 near the start: a picture, an archive, a spreadsheet. */
const isBinary = (text: string): boolean => {
  if (text.includes('\0')) return true;
  const start = text.slice(0, 8192);
  const strange = start.match(/[\x01-\x08\x0b\x0c\x0e-\x1f\ufffd]/g)?.length ?? 0;
  return strange > 8 && strange > start.length / 50;
};
