import type { z } from 'zod';
import type { MapNode, Node, Place, ScalarNode } from '../../text/tree';
import { textOf } from '../../text/tree';
import type { Problem } from '../problem';
import { writtenNumber } from './numbers-as-written';
import { hasKeys, type Issue, issueProblems, pathOf, specificIssues, valueAt } from './schema-issues';
import { schemasAt, schemasBelow, takes } from './schema-shape';

/**
 * The one place where a value is held against its schema and where the rest of a faulty value is saved: what is wrong is
 * reported and left out, so that a file being typed always has a model.
 */

/** Of one value; nobody reads on past it. */
const mostIssues = 1000;

/** The value that a node holds as its schema has it, less what is wrong in it; null where nothing can be saved. */
export function checked<S extends z.ZodType>(
  schema: S,
  node: Node | null,
  here: Place,
  report: (problem: Problem) => void,
): z.output<S> | null {
  let value = valueFor(schemasAt([schema], []), node, report);
  if (value === odd) return null;
  for (let round = 0; round < 20; round++) {
    const result = schema.safeParse(value);
    if (result.success) return result.data;
    const issues = result.error.issues.flatMap((issue) => specificIssues(issue, value));
    if (round === 0) issueProblems(schema, issues.slice(0, mostIssues), value, node, here).forEach(report);
    const saved = withoutFaults(schema, value, issues);
    if (saved === undefined) return null;
    value = saved;
  }
  return null;
}

const odd = Symbol('a number not to be used');

/**
 * Plain values for a schema. A number where a text may stand is kept as it was written (a staff number `007`); one that YAML
 * accepts and a person did not mean (hexadecimal, infinite) is reported and left out.
 */
function valueFor(
  schemas: readonly z.ZodType[],
  node: Node | null,
  report: (problem: Problem) => void,
): unknown {
  if (node === null) return null;
  if (node.kind === 'map') return mapFor(schemas, node, report);
  if (node.kind === 'sequence') {
    const list = node.items.map((item, i) => valueFor(schemasBelow(schemas, i), item, report));
    return list.includes(odd) ? odd : list;
  }
  return scalarFor(schemas, node, report);
}

function mapFor(schemas: readonly z.ZodType[], node: MapNode, report: (problem: Problem) => void): unknown {
  const map: Record<string, unknown> = Object.create(null);
  for (const entry of node.entries) {
    const key = textOf(entry.key);
    const value = valueFor(schemasBelow(schemas, key), entry.value, report);
    if (value !== odd) map[key] = value;
  }
  return map;
}

function scalarFor(
  schemas: readonly z.ZodType[],
  node: ScalarNode,
  report: (problem: Problem) => void,
): unknown {
  if (typeof node.value !== 'number' || !node.plain) return node.value;
  if (takes(schemas, 'string') && takes(schemas, 'number')) return textOf(node);
  if (!takes(schemas, 'number')) return node.value;
  const written = writtenNumber(node);
  if (written.value !== null) return node.value;
  const { place } = node;
  const replacements = written.suggestions?.map((text) => ({ title: `Write ${text}`, place, text }));
  report({ rule: 'text/wrong-type', place, message: written.message, replacements });
  return odd;
}

/** A copy without what the issues name; undefined where that is the whole. */
function withoutFaults(schema: z.ZodType, value: unknown, issues: readonly Issue[]): unknown {
  const copy = structuredClone(value);
  const removed = new Map<unknown[], Set<number>>();
  for (const issue of issues) {
    let path = pathOf(issue);
    if (issue.code === 'unrecognized_keys') {
      const owner = valueAt(copy, path);
      if (hasKeys(owner)) for (const key of issue.keys) delete owner[key];
      continue;
    }
    // what is missing makes its owner unusable
    if (valueAt(value, path) === undefined) path = path.slice(0, -1);
    // a row of numbers is useless with one number gone
    while (path.length > 0 && takes(schemasAt([schema], path.slice(0, -1)), 'tuple'))
      path = path.slice(0, -1);
    if (path.length === 0) return undefined;
    const owner = valueAt(copy, path.slice(0, -1));
    const step = path[path.length - 1];
    if (Array.isArray(owner)) removed.set(owner, (removed.get(owner) ?? new Set()).add(Number(step)));
    else if (hasKeys(owner)) delete owner[step];
  }
  for (const [list, indices] of removed) {
    const kept = list.filter((_, index) => !indices.has(index));
    list.length = 0;
    for (const item of kept) list.push(item);
  }
  return copy;
}
