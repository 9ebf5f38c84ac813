import { isMap, isSeq, parseDocument, Schema } from 'yaml';
import { closingOf } from '../brackets';
import { DEEPEST, type ParseState } from '../parse-state';
import type { Node } from '../tree';
import { YamlConversion } from './from-yaml';
import { leafProblem } from './leaf-problem';
import type { Leaf } from './leaf-stretch';

/** One schema for all leaves: making it costs more than parsing a leaf. */
const schema = new Schema({ schema: 'core', resolveKnownTags: false });
/** Duplicate keys are ours to find: the package compares each key with every other. */
const options = {
  version: '1.2',
  schema,
  uniqueKeys: false,
  prettyErrors: false,
  logLevel: 'silent',
} as const;

const standIns = { key: 'k: ', dash: '- ', 'key above': 'k:\n', 'dash above': '-\n', nothing: '' };

/** Reads one value with the `yaml` package; of several errors the first is reported, since one slip causes many. */
export const leafNode = (state: ParseState, leaf: Leaf): Node | null => {
  const { from, to, under, block } = leaf;
  const written = state.text.slice(from, to);
  if (isTooDeep(written)) {
    state.reportTooDeep(from, block);
    return null;
  }
  const lead = ' '.repeat(leaf.indent) + standIns[under];
  const delta = from - lead.length;
  try {
    const document = parseDocument(lead + written, options);
    const root = document.contents;
    let content: unknown = root;
    if (under === 'key' || under === 'key above') content = isMap(root) ? root.items[0]?.value : null;
    if (under === 'dash' || under === 'dash above') content = isSeq(root) ? root.items[0] : null;
    const node = new YamlConversion(state, block, delta - block.start).nodeOf(content);
    if (document.errors.length > 0 || isLeftOpen(written)) leafProblem(state, leaf, document.errors, delta);
    else if (content !== root && (isMap(root) || isSeq(root)) && root.items.length > 1) {
      state.reportSyntax('a key is missing before the colon', from, from + written.trimEnd().length, block);
    }
    return node;
  } catch (error) {
    // The package recurses into nested text; what is too deep for the stack is too deep for us.
    if (!(error instanceof RangeError)) throw error;
    state.reportTooDeep(from, block);
    return null;
  }
};

/** The package takes the '' at the end of 'it'' for a closing quote. */
const isLeftOpen = (written: string): boolean =>
  written.startsWith("'") && closingOf(written, 0, written.length).kind === 'open';

/** Brackets are counted before the package recurses into them; in quotes too, where nobody leaves a hundred open. */
const isTooDeep = (written: string): boolean => {
  if (written.length <= DEEPEST) return false;
  let depth = 0;
  for (let offset = 0; offset < written.length && depth <= DEEPEST; offset++) {
    const code = written.charCodeAt(offset);
    if (code === 91 || code === 123) depth++;
    else if ((code === 93 || code === 125) && depth > 0) depth--;
  }
  return depth > DEEPEST;
};
