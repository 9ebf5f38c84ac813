import type { Vec3 } from '../../geometry/vector';
import type { Node, ScalarNode, SequenceNode } from '../../text/tree';
import type { Problem, Replacement } from '../problem';
import { writtenNumber } from './numbers-as-written';
import { shortened } from './shortened';

/** Rows of numbers are read by hand, not through a schema: there are many, and their mistakes deserve their own words. */

type Report = (problem: Problem) => void;
const rule = 'text/wrong-type';

/** Three numbers as written, or null with the reason reported. `what`: what the three mean, for the message. */
export function tripleOf(node: Node | null, what: string, report: Report): Vec3 | null {
  if (node?.kind !== 'sequence') {
    if (node)
      report(
        node.kind === 'scalar'
          ? withoutBrackets(node, what)
          : { rule, place: node.place, message: `a map stands where three numbers belong: ${what}` },
      );
    return null;
  }
  if (node.items.length !== 3) {
    report(wrongCount(node, what));
    return null;
  }
  const a = numberOf(node.items[0], report);
  const b = numberOf(node.items[1], report);
  const c = numberOf(node.items[2], report);
  return a === null || b === null || c === null ? null : [a, b, c];
}

/** One number as written, or null with the reason reported. */
export function numberOf(node: Node, report: Report): number | null {
  const written = writtenNumber(node);
  if (written.value === null)
    report({
      rule,
      place: node.place,
      message: written.message,
      replacements: written.suggestions?.map((text) => writing(text, node)),
    });
  return written.value;
}

const writing = (text: string, node: Node): Replacement => ({
  title: `Write ${text}`,
  place: node.place,
  text,
});

/** `1204.1, 421, 95.4]`, `1204.1 421 95.4`: three numbers whose brackets are missing. */
function withoutBrackets(node: ScalarNode, what: string): Problem {
  const { place } = node;
  const source = node.source.trim();
  const text = threeNumbersIn(source.replace(/^[[(]/, '').replace(/[\])]$/, ''));
  if (text !== null)
    return {
      rule,
      place,
      message: `three numbers stand in brackets, with commas between: ${text}`,
      replacements: [writing(text, node)],
    };
  if (source === '') return { rule, place, message: `three numbers belong here: ${what}` };
  return {
    rule,
    place,
    message: `${shortened(source)} stands where three numbers belong: ${what}`,
  };
}

/**
 * `1204.1 421 95.4`, also with commas or semicolons between, or decimal commas: as three numbers in brackets; null for anything else. A comma
 * before three digits may part thousands: of such a number nothing is made.
 */
export function threeNumbersIn(text: string): string | null {
  const apart = (separator: string | RegExp): string[] =>
    text
      .trim()
      .split(separator)
      .map((each) => each.trim());
  for (const separator of [/\s+/, ';', ',']) {
    const numbers = apart(separator);
    if (numbers.length === 3 && numbers.every((each) => /^-?\d+(\.\d+|,\d{1,2}|,\d{4,})?$/.test(each)))
      return `[${numbers.join(', ').replaceAll(/(?<=\d),(?=\d)/g, '.')}]`;
  }
  return null;
}

function wrongCount(node: SequenceNode, what: string): Problem {
  const { items, place } = node;
  const sources = items.map((item) => (item.kind === 'scalar' && item.plain ? item.source.trim() : '?'));
  const offered = (question: string, text: string): Problem => ({
    rule,
    place,
    message: `${countOf(items.length)} where three belong: ${question} Write ${text}`,
    replacements: [writing(text, node)],
  });
  const apart = items.length === 1 ? threeNumbersIn(sources[0]) : null;
  if (apart !== null)
    return {
      rule,
      place,
      message: `commas stand between the three numbers: ${apart}`,
      replacements: [writing(apart, node)],
    };
  const decimals = joinedDecimals(sources);
  if (decimals !== null) return offered('decimal commas?', `[${decimals.join(', ')}]`);
  const thousands = joinedThousands(sources);
  if (thousands !== null) return offered('commas between thousands?', `[${thousands.join(', ')}]`);
  const hint = items.length === 4 || items.length === 5 ? ' (a decimal comma?)' : '';
  return { rule, place, message: `${countOf(items.length)} where three belong: ${what}${hint}` };
}

const words = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];

/** `two numbers`, `12 numbers`. */
export const countOf = (count: number): string => `${words[count] ?? count} number${count === 1 ? '' : 's'}`;

/** `1204, 1, 421, 0, 95, 4` → `1204.1, 421.0, 95.4`; points between thousands go. */
function joinedDecimals(sources: readonly string[]): string[] | null {
  if (sources.length !== 6) return null;
  const fits = sources.every((source, i) =>
    (i % 2 === 0 ? /^[-+]?(\d+|\d{1,3}(\.\d{3})+)$/ : /^\d+$/).test(source),
  );
  return fits ? [0, 2, 4].map((i) => `${sources[i].replaceAll('.', '')}.${sources[i + 1]}`) : null;
}

/** `1, 250.5, 420, 95` → `1250.5, 420, 95`, where there is one way only to make three numbers of them. */
function joinedThousands(sources: readonly string[]): string[] | null {
  // 1.204 may itself be written with a point between thousands
  if (
    sources.length < 4 ||
    sources.length > 6 ||
    sources.some((source) => /^[-+]?[1-9]\d{0,2}\.\d{3}$/.test(source))
  )
    return null;
  const joined: string[] = [];
  for (const source of sources) {
    const last = joined.at(-1);
    if (last !== undefined && /^[-+]?[1-9]\d{0,2}$/.test(last) && /^\d{3}\.\d+$/.test(source))
      joined[joined.length - 1] = last + source;
    else if (/^[-+]?\d+(\.\d+)?$/.test(source)) joined.push(source);
    else return null;
  }
  return joined.length === 3 ? joined : null;
}
