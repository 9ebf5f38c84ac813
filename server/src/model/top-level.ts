import type { z } from 'zod';
import type { MapNode, Place, TextTree } from '../text/tree';
import { nearest } from './names';
import type { Problem } from './problem';
import { checked } from './schema-check';

/** A file's top level, each key checked by itself so that one mistake spoils one key. */
export interface TopLevel<Shape extends Record<string, z.ZodType>> {
  readonly root: MapNode | null;
  /** The values that are right; the keys in `byHand` are left to the caller. */
  readonly value: { [Key in keyof Shape]?: z.output<Shape[Key]> };
  readonly head: Place;
}

export function topLevel<Shape extends Record<string, z.ZodType>>(
  tree: TextTree,
  shape: Shape,
  required: readonly string[],
  byHand: readonly string[],
  report: (problem: Problem) => void,
): TopLevel<Shape> {
  const block = { start: 0 };
  const nowhere: Place = { block, start: 0, end: 0 };
  const root = tree.root?.kind === 'map' ? tree.root : null;
  if (tree.root !== null && root === null)
    report({ rule: 'text/wrong-type', place: tree.root.place, message: 'a file is a map of keys and values' });
  const head = root?.entries[0]?.key.place ?? nowhere;
  const value: Record<string, unknown> = {};
  const given = new Set(root?.entries.map((entry) => String(entry.key.value)));
  for (const entry of root?.entries ?? []) {
    const key = String(entry.key.value);
    if (!Object.hasOwn(shape, key)) {
      const meant = nearest(
        key,
        Object.keys(shape).filter((known) => !given.has(known)),
      );
      report({
        rule: 'text/unknown-key',
        place: entry.key.place,
        message: `\`${key}\` is not a key here${meant ? `; did you mean \`${meant}\`?` : `; known: ${Object.keys(shape).join(', ')}`}`,
        replacements: meant ? [{ title: `Change to ${meant}`, place: entry.key.place, text: meant }] : undefined,
      });
      continue;
    }
    if (byHand.includes(key)) continue;
    if (entry.value === null || (entry.value.kind === 'scalar' && entry.value.value === null)) {
      report({ rule: 'text/wrong-type', place: entry.key.place, message: `nothing is given for \`${key}\`` });
      continue;
    }
    const result = checked(shape[key], entry.value, entry.key.place, (problem) => report(named(problem, key)));
    if (result !== null) value[key] = result;
  }
  // while the text is broken, a key may stand in what could not be read
  if (!tree.problems.some((problem) => problem.rule === 'text/syntax' || problem.rule === 'text/too-large')) {
    for (const key of required)
      if (!given.has(key)) report({ rule: 'text/missing-key', place: head, message: `this file needs \`${key}\`` });
  }
  return { root, value: value as TopLevel<Shape>['value'], head };
}

/** A problem with the value as a whole is about its key. */
const named = (problem: Problem, key: string): Problem =>
  problem.message.startsWith('this') ? { ...problem, message: problem.message.replace(/^this/, `\`${key}\``) } : problem;
