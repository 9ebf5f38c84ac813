import type { z } from 'zod';
import { type NodeAtPath, nodeAtPath, valueOf } from '../text/toValue';
import type { Node, Place } from '../text/tree';
import { nearest } from './names';
import { writtenNumber } from './numbers-as-written';
import type { Problem } from './problem';
import { keysOf } from './schema-shape';

/**
 * The one place where what a schema says becomes a problem with a range, and where the rest of a faulty value is
 * saved: what is wrong is reported and left out, so that a file being typed always has a model.
 */

type Path = (string | number)[];
type Issue = z.core.$ZodIssue;

/** The value that a node holds as its schema has it, less what is wrong in it; null where nothing can be saved. */
export function checked<S extends z.ZodType>(
  schema: S,
  node: Node | null,
  here: Place,
  report: (problem: Problem) => void,
): z.output<S> | null {
  let value = withoutOddNumbers(node, valueOf(node), report);
  for (let round = 0; round < 20; round++) {
    const result = schema.safeParse(value);
    if (result.success) return result.data;
    const issues = result.error.issues.flatMap((issue) => specific(issue, value));
    if (round === 0)
      for (const issue of issues) {
        if (issue.code === 'unrecognized_keys') unknownKeys(schema, issue, node, here).forEach(report);
        else report(problemOf(issue, value, node, here));
      }
    const saved = withoutFaults(value, issues);
    if (saved === undefined) return null;
    value = saved;
  }
  return null;
}

/** Numbers that YAML accepts and a person did not mean: hexadecimal, infinite, not a number. */
function withoutOddNumbers(node: Node | null, value: unknown, report: (problem: Problem) => void): unknown {
  if (node?.kind === 'map') {
    const map = value as Record<string, unknown>;
    for (const entry of node.entries) {
      const key = String(entry.key.value);
      const inner = withoutOddNumbers(entry.value, map[key], report);
      if (inner === odd) delete map[key];
    }
  } else if (node?.kind === 'sequence') {
    const list = value as unknown[];
    if (node.items.some((item, i) => withoutOddNumbers(item, list[i], report) === odd)) return odd;
  } else if (node?.kind === 'scalar' && typeof node.value === 'number' && node.plain) {
    const written = writtenNumber(node);
    if (written.value === null) {
      report({ rule: 'text/wrong-type', place: node.place, message: written.message });
      return odd;
    }
  }
  return value;
}

const odd = Symbol('a number not to be used');

/** Of a union, the branch that the value was likely meant for; else the issue itself. Paths become whole. */
function specific(issue: Issue, value: unknown): Issue[] {
  if (issue.code !== 'invalid_union') return [issue];
  const at = valueAt(value, issue.path as Path);
  if (typeof at !== 'object' || at === null) return [issue];
  const branch = (issue.errors as Issue[][])
    .filter((issues) => issues.every((inner) => inner.path.length > 0 || inner.code === 'unrecognized_keys'))
    .sort((a, b) => a.length - b.length)[0];
  if (branch === undefined) return [issue];
  return branch
    .map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] }) as Issue)
    .flatMap((inner) => specific(inner, value));
}

function problemOf(issue: Issue, value: unknown, node: Node | null, here: Place): Problem {
  const path = issue.path as Path;
  const found = nodeAtPath(node, path);
  const place = placeOf(found, here);
  const key = [...path].reverse().find((step) => typeof step === 'string');
  const what = key === undefined ? 'this' : `\`${key}\``;
  const at = valueAt(value, path);
  if (at === undefined && issue.code !== 'custom') {
    const owner = found.entry ? `\`${found.entry.key.source}\`` : 'this';
    return {
      rule: 'text/missing-key',
      place: found.entry?.key.place ?? here,
      message: `${owner} needs ${what}${issue.message.startsWith('expected') ? ` (${issue.message})` : ''}`,
    };
  }
  if (at === null) return { rule: 'text/wrong-type', place, message: `nothing is given for ${what}` };
  if (issue.code === 'invalid_value') return wrongWord(issue, found, place, what);
  const number = expectsNumber(issue) && found.node ? writtenNumber(found.node) : { value: 0 };
  if (number.value === null) {
    const replacements = number.suggestion
      ? [{ title: `Write ${number.suggestion}`, place, text: number.suggestion }]
      : undefined;
    return { rule: 'text/wrong-type', place, message: `${what}: ${number.message}`, replacements };
  }
  const expectation = plainExpectation(issue);
  return { rule: 'text/wrong-type', place, message: `${what}: ${expectation}${gotten(at)}` };
}

function unknownKeys(schema: z.ZodType, issue: Issue & { keys: string[] }, node: Node | null, here: Place): Problem[] {
  const path = issue.path as Path;
  const owner = nodeAtPath(node, path).node;
  const known = keysOf(schema, path);
  return issue.keys.map((unknown) => {
    const entry = owner?.kind === 'map' ? owner.entries.find((each) => String(each.key.value) === unknown) : undefined;
    const place = entry?.key.place ?? here;
    const taken = new Set(owner?.kind === 'map' ? owner.entries.map((each) => String(each.key.value)) : []);
    const meant = nearest(
      unknown,
      known.filter((key) => !taken.has(key)),
    );
    return {
      rule: 'text/unknown-key',
      place,
      message: `\`${unknown}\` is not a key here${meant ? `; did you mean \`${meant}\`?` : `; known: ${known.join(', ')}`}`,
      replacements: meant && entry ? [{ title: `Change to ${meant}`, place, text: meant }] : undefined,
    };
  });
}

function wrongWord(issue: Issue & { values: unknown[] }, found: NodeAtPath, place: Place, what: string): Problem {
  const known = issue.values.map(String);
  const written = found.node?.kind === 'scalar' ? found.node.source.trim() : '';
  const meant = written === '' ? undefined : nearest(written, known);
  return {
    rule: 'text/wrong-type',
    place,
    message: `${what} is one of ${known.join(', ')}${written ? `, not ${written}` : ''}${meant ? `; did you mean ${meant}?` : ''}`,
    replacements: meant ? [{ title: `Change to ${meant}`, place, text: meant }] : undefined,
  };
}

const expectsNumber = (issue: Issue): boolean =>
  (issue.code === 'invalid_type' && issue.expected === 'number') ||
  (issue.code === 'invalid_union' && /^expected (0 or )?a number/.test(issue.message) && !issue.message.includes('map'));

/** Schemas speak our words where they set a message; else the type is named. */
function plainExpectation(issue: Issue): string {
  if (issue.code === 'invalid_type') return `${article(issue.expected)} belongs here`;
  return issue.message;
}

function article(type: string): string {
  const words: Record<string, string> = {
    number: 'a number',
    string: 'text',
    boolean: 'true or false',
    array: 'a list',
    tuple: 'a list',
    object: 'a map of keys and values',
    record: 'a map of keys and values',
  };
  return words[type] ?? type;
}

function gotten(value: unknown): string {
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') {
    const text = String(value);
    return `, not ${text.length > 40 ? `${text.slice(0, 40)}…` : text}`;
  }
  if (Array.isArray(value)) return ', not a list like this one';
  return value !== null && typeof value === 'object' ? ', not a map like this one' : '';
}

function placeOf(found: NodeAtPath, here: Place): Place {
  if (found.complete && found.node) return found.node.place;
  return found.entry?.key.place ?? here;
}

function valueAt(value: unknown, path: Path): unknown {
  let at = value;
  for (const step of path) {
    if (typeof at !== 'object' || at === null) return undefined;
    at = (at as Record<string | number, unknown>)[step];
  }
  return at;
}

/** A copy without what the issues name; undefined where that is the whole. */
function withoutFaults(value: unknown, issues: readonly Issue[]): unknown {
  const copy = structuredClone(value);
  const removed: { list: unknown[]; index: number }[] = [];
  for (const issue of issues) {
    let path = [...(issue.path as Path)];
    if (issue.code === 'unrecognized_keys') {
      const owner = valueAt(copy, path) as Record<string, unknown> | undefined;
      for (const key of issue.keys) delete owner?.[key];
      continue;
    }
    // what is missing makes its owner unusable
    if (valueAt(copy, path) === undefined) path = path.slice(0, -1);
    // a row of numbers is useless with one number gone
    while (path.length > 0 && typeof path[path.length - 1] === 'number' && isRow(valueAt(value, path.slice(0, -1)))) path = path.slice(0, -1);
    if (path.length === 0) return undefined;
    const owner = valueAt(copy, path.slice(0, -1));
    const step = path[path.length - 1];
    if (Array.isArray(owner)) removed.push({ list: owner, index: Number(step) });
    else if (typeof owner === 'object' && owner !== null) delete (owner as Record<string, unknown>)[step];
  }
  const once = removed.filter((a, i) => removed.findIndex((b) => b.list === a.list && b.index === a.index) === i);
  for (const { list, index } of once.sort((a, b) => b.index - a.index)) list.splice(index, 1);
  return copy;
}

const isRow = (value: unknown): boolean => Array.isArray(value) && value.some((each) => typeof each === 'number');
