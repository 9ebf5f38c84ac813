// No expression of the product takes more than its share of time for a long stretch of one thing: a file may hold anything.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const root = path.resolve(import.meta.dirname, '..');

function sources(folder: string): string[] {
  return readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
    .map((name) => path.join(folder, name))
    .filter((name) => /\.ts$/.test(name) && !/\.(test|fixture)\.ts$|[\\/]testing[\\/]/.test(name));
}

/** Every expression that stands in a source file, with where it stands. */
function expressionsIn(name: string): { where: string; expression: RegExp }[] {
  const text = readFileSync(path.join(root, name), 'utf8');
  const file = ts.createSourceFile(name, text, ts.ScriptTarget.Latest, true);
  const found: { where: string; expression: RegExp }[] = [];
  const visit = (node: ts.Node): void => {
    if (node.kind === ts.SyntaxKind.RegularExpressionLiteral) {
      const [, source, flags] = /^\/(.*)\/(\w*)$/s.exec(node.getText()) as RegExpExecArray;
      const line = file.getLineAndCharacterOfPosition(node.getStart()).line + 1;
      found.push({ where: `${name}:${line} ${node.getText()}`, expression: new RegExp(source, flags) });
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

/** What is said again and again, what may stand before it, and what keeps it from being just that. */
const stretches = [
  ...'a0-._ \t\n\r#,;:"\'[]{}&!*|/\\@',
  '\u00a0',
  'a ',
  'a-',
  '- ',
  '1,',
  '1 ',
  '.5',
  ' #',
  '""',
  "''",
  '\\"',
  '#\n',
  ' \n',
  '\t \n',
  '&a ',
  '!a ',
  'a: ',
  '../',
  'L.',
  '000,',
];
const heads = ['', 'a', '1', '"', '# framewright-ignore ', '- ', '&', '\n\t'];
const tails = ['', '!', '\na'];

/** Characters in the shorter of two texts of which one is twice as long as the other. */
const length = 4_000;
/** Below this a difference is not the expression's, ms: one that takes a step for each pair of characters takes ten times as long. */
const floorMs = 2;

const textOf = (head: string, stretch: string, tail: string, size: number): string =>
  head + stretch.repeat(Math.ceil(size / stretch.length)) + tail;

/** What the processor worked on all that an expression has to say of a text, ms; the best of some. */
function workMs(expression: RegExp, text: string, tries: number): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < tries; i++) {
    const before = process.cpuUsage();
    if (expression.global) for (const _ of text.matchAll(expression));
    else expression.exec(text);
    expression.lastIndex = 0;
    const { user, system } = process.cpuUsage(before);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}

/** A text for which twice the length takes three times the work or more: head, stretch and tail; null where there is none. */
function slowFor(expression: RegExp): string[] | null {
  for (const head of heads)
    for (const stretch of stretches)
      for (const tail of tails) {
        const long = textOf(head, stretch, tail, 2 * length);
        if (workMs(expression, long, 1) < 3 * floorMs) continue;
        const short = workMs(expression, textOf(head, stretch, tail, length), 3);
        if (workMs(expression, long, 3) >= 3 * Math.max(short, floorMs)) return [head, stretch, tail];
      }
  return null;
}

const all = ['schemas/src', 'server/src', 'client/src'].flatMap(sources).flatMap(expressionsIn);

describe('of twice as long a text an expression makes less than three times the work', () => {
  it('all are found', () => expect(all.length).toBeGreaterThan(150));
  it.each(all)('$where', ({ expression }) => expect(slowFor(expression)).toBeNull());
});
