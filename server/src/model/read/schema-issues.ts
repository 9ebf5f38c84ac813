import type { z } from 'zod';
import { type NodeAtPath, nodeAtPath } from '../../text/plain-value';
import { type Node, type Place, textOf } from '../../text/tree';
import { nearest } from '../names';
import type { Problem, Replacement } from '../problem';
import { writtenNumber } from './numbers-as-written';
import { schemasAt, schemasBelow, takes, wordsOf } from './schema-shape';
import { shortened } from './shortened';
import { countOf } from './triple';
import { unknownKeys } from './unknown-keys';

/** What a schema has against a value, in the words of someone who types measurements, each at its place. */

export type Issue = z.core.$ZodIssue;

/** Where in the value; no key of a file is a symbol. */
export const pathOf = ({ path }: Issue): (string | number)[] =>
  path.filter((step) => typeof step !== 'symbol');

/** Of a union, the branch that the value was likely meant for; else the issue itself. Paths become whole. */
export function specificIssues(issue: Issue, value: unknown): Issue[] {
  if (issue.code !== 'invalid_union') return [issue];
  const at = valueAt(value, pathOf(issue));
  if (typeof at !== 'object' || at === null) return [issue];
  const branch = branchesOf(issue.errors)
    .filter((issues) => issues.every((inner) => inner.path.length > 0 || inner.code === 'unrecognized_keys'))
    .sort((a, b) => a.length - b.length)[0];
  if (branch === undefined) return [issue];
  return branch
    .map((inner): Issue => ({ ...inner, path: [...issue.path, ...inner.path] }))
    .flatMap((inner) => specificIssues(inner, value));
}

/** Of a union within a union the inner branches stand beside the outer ones. */
const branchesOf = (branches: readonly Issue[][]): Issue[][] =>
  branches.flatMap((issues) => {
    const [inner] = issues;
    return issues.length === 1 && inner.code === 'invalid_union' && inner.path.length === 0
      ? branchesOf(inner.errors)
      : [issues];
  });

/** @param node what the value was made from; @param here where the whole value is named, for what has no place of its own */
export function issueProblems(
  schema: z.ZodType,
  issues: readonly Issue[],
  value: unknown,
  node: Node | null,
  here: Place,
): Problem[] {
  // a required key that is there, only mistyped, is not also called missing
  const mistyped = new Set<string>();
  // nor is anything else said of how its keys go together
  const owners = new Set<string>();
  const unknown = new Map<Issue, Problem[]>();
  for (const issue of issues) {
    if (issue.code !== 'unrecognized_keys') continue;
    const problems = unknownKeys(schema, pathOf(issue), issue.keys, node, here);
    unknown.set(issue, problems);
    if (problems.some(({ replacements }) => replacements)) owners.add(JSON.stringify(issue.path));
    for (const problem of problems)
      for (const { text } of problem.replacements ?? []) mistyped.add(JSON.stringify([...issue.path, text]));
  }
  return issues.flatMap((issue) => {
    if (issue.code === 'custom' && owners.has(JSON.stringify(issue.path))) return [];
    const isMissing = valueAt(value, pathOf(issue)) === undefined;
    if (isMissing && mistyped.has(JSON.stringify(issue.path))) return [];
    // there, but not to be used: reported already
    if (isMissing && issue.code !== 'unrecognized_keys' && nodeAtPath(node, pathOf(issue)).complete)
      return [];
    return unknown.get(issue) ?? [problemOf(schema, issue, value, node, here)];
  });
}

function problemOf(schema: z.ZodType, issue: Issue, value: unknown, node: Node | null, here: Place): Problem {
  const path = pathOf(issue);
  const found = nodeAtPath(node, path);
  const place = placeOf(found, here);
  const key = [...path].reverse().find((step) => typeof step === 'string');
  const what = key === undefined ? 'this' : `\`${key}\``;
  const at = valueAt(value, path);
  const wrong = (message: string, replacements?: Replacement[]): Problem => ({
    rule: 'text/wrong-type',
    place,
    message,
    replacements,
  });
  if (at === undefined && issue.code !== 'custom') {
    const owner = found.entry ? `\`${textOf(found.entry.key)}\`` : 'this';
    return {
      rule: 'text/missing-key',
      place: found.entry?.key.place ?? here,
      message: `${owner} needs ${what}`,
    };
  }
  if (at === undefined && !found.complete) return { rule: 'text/missing-key', place, message: issue.message };
  if (issue.code === 'invalid_key') {
    const message = issue.issues[0]?.message ?? 'this key cannot stand here';
    return {
      rule: 'text/wrong-type',
      place: found.entry?.key.place ?? place,
      message: `${what}: ${message}`,
    };
  }
  if (at === null || at === '') return wrong(`nothing is given for ${what}`);
  if (issue.code === 'invalid_value') return wrongWord(issue, found, place, what);
  const schemas = schemasAt([schema], path);
  if (found.node?.kind === 'scalar' && takes(schemas, 'number') && !takes(schemas, 'string')) {
    const written = writtenNumber(found.node);
    if (written.value === null)
      return wrong(
        `${what}: ${written.message}`,
        written.suggestions?.map((text) => ({ title: `Write ${text}`, place, text })),
      );
  }
  if (takes(schemas, 'boolean') && typeof at === 'string') return wrong(...yesOrNo(at, what, place));
  if (
    takes(schemas, 'string') &&
    (typeof at === 'number' || typeof at === 'boolean') &&
    found.node?.kind === 'scalar'
  )
    return wrong(...asText(schemas, textOf(found.node), what, place));
  const instead = typeof at === 'string' ? insteadOf(schemas, at) : undefined;
  if (issue.path.length > 0 || issue.code !== 'custom' || node?.kind !== 'map')
    return wrong(
      `${what}: ${expectation(issue, at)}${gotten(at, issue)}${instead && !instead.startsWith('[') ? `; did you mean ${instead}?` : ''}`,
      instead ? [{ title: `Change to ${instead}`, place, text: instead }] : undefined,
    );
  // of how the keys of the whole go together: said at its name, which is shorter than itself
  return { rule: 'text/wrong-type', place: here, message: `this: ${issue.message}` };
}

/** A number where a text belongs: a name that is all digits wants quotes, a force its unit. */
function asText(
  schemas: readonly z.ZodType[],
  written: string,
  what: string,
  place: Place,
): [string, Replacement[]?] {
  const result = schemas
    .filter((schema) => takes([schema], 'string'))
    .map((schema) => schema.safeParse(written));
  const failure = result.find((each) => !each.success);
  if (failure?.error) return [`${what}: ${failure.error.issues[0].message}, not ${shortened(written)}`];
  const quoted = JSON.stringify(written);
  return [
    `${what}: ${shortened(written)} stands where a name or a text belongs; put it in quotes if it is one`,
    [{ title: `Write ${quoted}`, place, text: quoted }],
  ];
}

/** A word near to one that may stand here, or the list that one name is to stand in. */
function insteadOf(schemas: readonly z.ZodType[], word: string): string | undefined {
  const meant = nearest(word, wordsOf(schemas));
  if (meant !== undefined) return meant;
  const isList =
    takes(schemas, 'array') && takes(schemasBelow(schemas, 0), 'string') && !takes(schemas, 'string');
  return isList && /^[a-z0-9-]+(\.[LR])?$/.test(word) ? `[${word}]` : undefined;
}

const yes = /^(y|yes|on|true)$/i;
const no = /^(n|no|off|false)$/i;

function yesOrNo(word: string, what: string, place: Place): [string, Replacement[]?] {
  const meant = yes.test(word) ? 'true' : no.test(word) ? 'false' : nearest(word, ['true', 'false']);
  return [
    `${what} is true or false, not ${shortened(word)}`,
    meant ? [{ title: `Change to ${meant}`, place, text: meant }] : undefined,
  ];
}

function wrongWord(
  issue: Issue & { values: unknown[] },
  found: NodeAtPath,
  place: Place,
  what: string,
): Problem {
  const known = issue.values.map(String);
  const written = found.node?.kind === 'scalar' ? textOf(found.node).trim() : '';
  const near = written === '' ? undefined : nearest(written, known);
  // another version of a format is no slip of the hand
  const meant = near && near.replace(/\d/g, '') === written.replace(/\d/g, '') ? undefined : near;
  const message = `${what} is ${known.length > 1 ? 'one of ' : ''}${known.join(', ')}${written ? `, not ${shortened(written)}` : ''}`;
  return {
    rule: 'text/wrong-type',
    place,
    message: meant && known.length > 1 ? `${message}; did you mean ${meant}?` : message,
    replacements: meant ? [{ title: `Change to ${meant}`, place, text: meant }] : undefined,
  };
}

/** Schemas speak our words where they set a message; else the type is named. */
function expectation(issue: Issue, value: unknown): string {
  if (issue.code === 'invalid_type') return `${words[issue.expected] ?? issue.expected} belongs here`;
  if (Array.isArray(value) && value.length === 0) return 'the list is empty';
  return issue.message;
}

const words: Record<string, string> = {
  number: 'a number',
  string: 'a text',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'a map of keys and values',
  record: 'a map of keys and values',
};

function gotten(value: unknown, issue: Issue): string {
  if (issue.code === 'custom') return '';
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean')
    return `, not ${shortened(String(value))}`;
  if (!Array.isArray(value)) return ', not a map';
  if (value.length === 0) return '';
  if (!/\bnumbers\b|\blimits\b/.test(issue.message)) return ', not this list';
  return `, not ${countOf(value.length).split(' ')[0]}${value.length > 2 ? ' (a decimal comma?)' : ''}`;
}

function placeOf(found: NodeAtPath, here: Place): Place {
  if (found.complete && found.node) return found.node.place;
  return found.entry?.key.place ?? here;
}

/** A map or a list among plain values. */
export const hasKeys = (value: unknown): value is Record<string | number, unknown> =>
  typeof value === 'object' && value !== null;

export function valueAt(value: unknown, path: readonly (string | number)[]): unknown {
  let at = value;
  for (const step of path) {
    if (!hasKeys(at)) return undefined;
    // `constructor` is no key of a map that has none of that name
    at = Object.hasOwn(at, step) ? at[step] : undefined;
  }
  return at;
}
