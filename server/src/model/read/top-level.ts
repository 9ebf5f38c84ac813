import type { z } from 'zod';
import {
  entryOf,
  isNothing,
  type MapNode,
  type Node,
  offsetsOf,
  type Place,
  type TextTree,
  textOf,
} from '../../text/tree';
import type { Problem } from '../problem';
import { newerVersion, unlessNewer } from './newer-version';
import { checked } from './schema-check';
import { unknownKey } from './unknown-keys';

/** The schema of each key that a file of one kind may have; its first line says the kind. */
interface FileShape extends Readonly<Record<string, z.ZodType>> {
  readonly framewright: z.ZodLiteral<string>;
}

/** A file's top level, each key checked by itself so that one mistake spoils one key. */
interface TopLevel<Shape extends FileShape> {
  readonly root: MapNode | null;
  /** The values that are right; the keys in `byHand` are left to the caller. */
  readonly value: { [Key in keyof Shape]?: z.output<Shape[Key]> };
  readonly head: Place;
}

export function topLevel<Shape extends FileShape>(
  tree: TextTree,
  shape: Shape,
  required: readonly string[],
  byHand: readonly string[],
  report: (problem: Problem) => void,
): TopLevel<Shape> {
  const nowhere: Place = { block: { start: 0 }, start: 0, end: 0 };
  const root = tree.root?.kind === 'map' ? tree.root : null;
  const head = root?.entries[0]?.key.place ?? nowhere;
  const firstLine = `framewright: ${shape.framewright.value}`;
  if (tree.root !== null && root === null) {
    const message = `a file is made of keys and values, the first of them \`${firstLine}\``;
    report({ rule: 'text/wrong-type', place: tree.root.place, message });
    return { root, value: {}, head };
  }
  const other = otherKind(root, firstLine);
  if (other !== null) {
    report(other);
    return { root: null, value: {}, head };
  }
  const newer = newerIn(entryOf(root, 'framewright')?.value ?? null, shape);
  if (newer !== null) report(newer);
  const value: TopLevel<Shape>['value'] = {};
  const isKey = (key: string): key is Extract<keyof Shape, string> => Object.hasOwn(shape, key);
  const given = new Set(root?.entries.map((entry) => textOf(entry.key)));
  // a required key that is there, only mistyped, is not also called missing
  const accounted = new Set(given);
  for (const entry of root?.entries ?? []) {
    const key = textOf(entry.key);
    if (!isKey(key)) {
      const known = Object.keys(shape);
      const free = known.filter((each) => !given.has(each));
      const problem = unknownKey(key, entry.key.place, head, known, free);
      for (const { text } of problem.replacements ?? []) accounted.add(text);
      report(problem);
    } else if (byHand.includes(key)) {
    } else if (isNothing(entry.value)) {
      report({ rule: 'text/wrong-type', place: entry.key.place, message: `nothing is given for \`${key}\`` });
    } else {
      const result = checked(shape[key], entry.value, entry.key.place, (problem) =>
        report(named(problem, key)),
      );
      if (result !== null) value[key] = result;
    }
  }
  missingKeys(required, accounted, root, head, firstLine).forEach(report);
  return { root, value, head };
}

const newerIn = (value: Node | null, { framewright }: FileShape): Problem | null =>
  value?.kind === 'scalar' ? newerVersion(textOf(value), framewright.value, value.place) : null;

/** A file of another of our kinds under a name of this kind: then nothing else is said of it. */
function otherKind(root: MapNode | null, firstLine: string): Problem | null {
  const found = entryOf(root, 'framewright')?.value;
  if (found?.kind !== 'scalar') return null;
  const [kind] = textOf(found).split('/');
  const [wanted] = firstLine.replace('framewright: ', '').split('/');
  if (kind === wanted || !['chassis', 'readings', 'settings'].includes(kind)) return null;
  const message = `this says that it is a ${kind} file, but by its name it is a ${wanted} file: correct its name or its first line`;
  return { rule: 'text/wrong-type', place: found.place, message };
}

/** Something of the text could not be read: nothing may be concluded from what is not there. */
export const isUnreadable = (tree: TextTree): boolean =>
  tree.problems.some((problem) => problem.rule === 'text/syntax' || problem.rule === 'text/too-large');

function missingKeys(
  required: readonly string[],
  given: ReadonlySet<string>,
  root: MapNode | null,
  head: Place,
  firstLine: string,
): Problem[] {
  if (root !== null && required.every((key) => given.has(key))) return [];
  const start: Place = { ...head, end: head.start, endBlock: undefined };
  const writing = root?.flow
    ? undefined
    : [{ title: `Write ${firstLine}`, place: start, text: `${firstLine}\n` }];
  const rule = 'text/missing-key';
  if (root === null)
    return [
      {
        rule,
        place: head,
        message: `this file is empty: it begins with \`${firstLine}\``,
        replacements: writing,
      },
    ];
  return required
    .filter((key) => !given.has(key))
    .map((key) =>
      key === 'framewright'
        ? {
            rule,
            place: head,
            message: `this file needs \`${firstLine}\` as its first line`,
            replacements: writing,
          }
        : { rule, place: head, message: `this file needs \`${key}\`` },
    );
}

/** What is said of a value as a whole is said of its key. */
export const named = (problem: Problem, key: string): Problem =>
  problem.message.startsWith('this')
    ? { ...problem, message: problem.message.replace(/^this/, `\`${key}\``) }
    : problem;

/**
 * What is left to say once the text itself has been judged: not again of a value or a line that could not be read, and, while
 * anything could not be read, not that something is missing.
 */
export function withoutEchoes(tree: TextTree, all: readonly Problem[]): Problem[] {
  const problems = unlessNewer(all);
  if (!isUnreadable(tree)) return problems;
  const slips = tree.problems
    .filter(({ rule }) => rule === 'text/syntax')
    .map(({ place }) => offsetsOf(place).start)
    .sort((a, b) => a - b);
  const onOneLine = (from: number | undefined, to: number | undefined): boolean =>
    from !== undefined && to !== undefined && to - from < 2000 && !/[\r\n]/.test(tree.text.slice(from, to));
  return problems.filter(({ rule, place }) => {
    if (rule === 'text/missing-key') return false;
    const { start, end } = offsetsOf(place);
    const next = firstFrom(slips, start);
    return !(slips[next] < end || onOneLine(slips[next - 1], start) || onOneLine(start, slips[next]));
  });
}

/** Position of the first of some ascending numbers that is not less than `least`. */
function firstFrom(ascending: readonly number[], least: number): number {
  let low = 0;
  for (let high = ascending.length; low < high; ) {
    const middle = (low + high) >> 1;
    if (ascending[middle] < least) low = middle + 1;
    else high = middle;
  }
  return low;
}
