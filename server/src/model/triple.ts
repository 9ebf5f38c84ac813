import type { Vec3 } from '../geometry/vector';
import type { Node, SequenceNode } from '../text/tree';
import { writtenNumber } from './numbers-as-written';
import type { Problem } from './problem';

/** Rows of numbers are read by hand, not through a schema: there are many, and their mistakes deserve their own words. */

/** Three numbers as written, or null with the reason reported. `what`: what the three mean, for the message. */
export function tripleOf(node: Node | null, what: string, report: (problem: Problem) => void): Vec3 | null {
  if (node?.kind !== 'sequence') {
    if (node) report({ rule: 'text/wrong-type', place: node.place, message: `three numbers belong here: ${what}` });
    return null;
  }
  if (node.items.length !== 3) {
    report(wrongCount(node, what));
    return null;
  }
  const numbers = node.items.map((item) => {
    const written = writtenNumber(item);
    if (written.value === null) {
      const replacements = written.suggestion
        ? [{ title: `Write ${written.suggestion}`, place: item.place, text: written.suggestion }]
        : undefined;
      report({ rule: 'text/wrong-type', place: item.place, message: written.message, replacements });
    }
    return written.value;
  });
  return numbers.every((value) => value !== null) ? (numbers as unknown as Vec3) : null;
}

function wrongCount(node: SequenceNode, what: string): Problem {
  const { items, place } = node;
  const rule = 'text/wrong-type';
  const sources = items.map((item) => (item.kind === 'scalar' ? item.source.trim() : '?'));
  if (items.length === 6 && sources.every((source) => /^-?\d+$/.test(source))) {
    const joined = [0, 2, 4].map((i) => `${sources[i]}.${sources[i + 1]}`);
    const text = `[${joined.join(', ')}]`;
    return {
      rule,
      place,
      message: `six numbers where three belong: decimal commas? Write decimal points: ${text}`,
      replacements: [{ title: `Write ${text}`, place, text }],
    };
  }
  const thousands = joinedThousands(sources);
  if (thousands !== null) {
    const text = `[${thousands.join(', ')}]`;
    return {
      rule,
      place,
      message: `${items.length} numbers where three belong: commas between thousands? Write ${text}`,
      replacements: [{ title: `Write ${text}`, place, text }],
    };
  }
  const some = items.length === 1 ? 'one number' : `${items.length} numbers`;
  const hint = items.length > 3 && items.length < 6 ? ' (a decimal comma?)' : '';
  return { rule, place, message: `${some} where three belong: ${what}${hint}` };
}

/** `1, 250.5, 420, 95` → `1250.5, 420, 95`, where exactly three numbers result. */
function joinedThousands(sources: readonly string[]): string[] | null {
  const joined: string[] = [];
  for (const source of sources) {
    const last = joined.at(-1);
    if (last !== undefined && /^-?\d{1,3}$/.test(last) && /^\d{3}\.\d+$/.test(source) && joined.length + sources.length > 3) {
      joined[joined.length - 1] = last + source;
    } else joined.push(source);
  }
  return joined.length === 3 && joined.length < sources.length ? joined : null;
}
