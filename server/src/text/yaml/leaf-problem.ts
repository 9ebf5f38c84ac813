import type { ErrorCode, YAMLParseError } from 'yaml';
import { closingOf } from '../brackets';
import type { ParseState } from '../parse-state';
import type { Leaf } from './leaf-stretch';

/** What the `yaml` package's error codes mean to someone who types measurements. */
const meanings: Partial<Record<ErrorCode, string>> = {
  BAD_DQ_ESCAPE: 'double quotes do not know this escape: write \\\\ for a backslash, or use single quotes',
  BAD_SCALAR_START: 'a text cannot begin with this character: put it in quotes',
  BAD_INDENT: 'this line is not indented deeper than the key that it belongs to',
  BLOCK_AS_IMPLICIT_KEY: 'a second colon on one line: put the text in quotes or start a new line',
  BLOCK_IN_FLOW: 'a list of lines cannot be inside brackets',
  MULTILINE_IMPLICIT_KEY: 'a key and its colon must stand on one line',
  TAB_AS_INDENT: 'a tab at the start of the line: indent with spaces',
  BAD_ALIAS: 'a name must follow the * or &',
  ALIAS_PROPS: 'nothing can stand before an alias',
  MULTIPLE_ANCHORS: 'one anchor is enough',
  MULTIPLE_TAGS: 'tags are not part of this language: remove them',
};
const withoutMeaning =
  'this cannot be read: a comma, a bracket, a quote or a colon may be missing, or there may be one too many';

/** Reports why a leaf could not be read: one problem, where the slip is rather than where the parser noticed it. */
export const leafProblem = (
  state: ParseState,
  leaf: Leaf,
  errors: readonly YAMLParseError[],
  delta: number,
): void => {
  const { text } = state;
  const written = text.slice(leaf.from, leaf.to);

  const tab =
    /\n *\t[ \t]*(?=[^\s#])/.exec(written) ?? (leaf.under.endsWith('above') ? /^ *\t/.exec(written) : null);
  if (tab) {
    const at = leaf.from + tab.index + tab[0].indexOf('\t');
    state.reportSyntax('a tab at the start of the line: indent with spaces', at, at + 1, leaf.block);
    return;
  }
  const start = leaf.from + valueStart(written);
  const closing = closingOf(text, start, leaf.to);
  if (closing.kind === 'open') {
    state.reportSyntax(unclosedMessage(text[closing.at]), closing.at, closing.at + 1, leaf.block);
    return;
  }
  if (closing.kind === 'mismatch') {
    const opener = text[closing.opener];
    const message = `a ${opener === '[' ? ']' : '}'} is expected here, since a ${opener} was opened`;
    const related = { at: closing.opener, message: 'opened here' };
    state.reportSyntax(message, closing.at, closing.at + 1, leaf.block, related);
    return;
  }
  const { code, pos } = errors[0];
  const lastVisible = leaf.from + written.trimEnd().length - 1;
  const at = Math.min(Math.max(pos[0] + delta, leaf.from), Math.max(lastVisible, leaf.from));
  const lineEnd = /[\r\n]|$/g;
  lineEnd.lastIndex = at;
  const end = Math.min(pos[1] + delta, lineEnd.exec(text)?.index ?? at, lastVisible + 1);
  state.reportSyntax(
    messageFor(code, text[at], closing.kind === 'closed' && at >= closing.end),
    at,
    end,
    leaf.block,
  );
};

export const unclosedMessage = (opener: string): string => {
  if (opener === '"' || opener === "'") return `this quote is not closed: a ${opener} is missing`;
  return `this bracket is not closed: a ${opener === '[' ? ']' : '}'} is missing`;
};

const messageFor = (code: ErrorCode, character: string, afterEnd: boolean): string => {
  if (afterEnd && (character === ']' || character === '}')) return `a ${character} too many`;
  if (afterEnd)
    return 'after the closing quote or bracket only a comment may follow on the same line, after a space and #';
  if (code === 'MISSING_CHAR') return 'a comma or a colon is missing here';
  return meanings[code] ?? withoutMeaning;
};

/** Offset of the first character of the value, behind comments, anchors and tags. */
const valueStart = (written: string): number => {
  const before = /(?:\s+|#[^\n]*(?:\n|$)|[&!][^\s]*)*/y;
  before.exec(written);
  return before.lastIndex;
};
