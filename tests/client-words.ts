import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import ts from 'typescript';

/** What the client says in its own words, found in its source. */

const folder = path.join(import.meta.dirname, '../client/src');

interface Words {
  /** What is looked up for another language: the first argument of `l10n.t`. */
  readonly keys: string[];
  /** Words of messages, questions and what is put on items and titles that are not, with their place. */
  readonly bare: string[];
}

const messages = /^(show(Information|Warning|Error)Message|setStatusBarMessage)$/;
/** What stands above or in a question: of `showQuickPick`, `showInputBox`, `showSaveDialog`, `showOpenDialog`. */
const asks = /^show(QuickPick|InputBox|SaveDialog|OpenDialog)$/;
const asked = new Set(['title', 'prompt', 'placeHolder', 'openLabel', 'saveLabel']);

const calledName = ({ expression }: ts.CallExpression): string =>
  ts.isPropertyAccessExpression(expression) ? expression.name.text : '';

const isLookUp = (node: ts.Node): node is ts.CallExpression =>
  ts.isCallExpression(node) && /^(vscode\.)?l10n\.t$/.test(node.expression.getText());

/** Shown as an example of what may be typed: the same in each language. */
const examples = new Set(['W-2041', 'Marten, hatchback']);

/** A text that holds a letter outside of what is put into it. */
function isWords(node: ts.Node): boolean {
  if (ts.isStringLiteralLike(node)) return /\p{L}/u.test(node.text) && !examples.has(node.text);
  if (!ts.isTemplateExpression(node)) return false;
  return [node.head, ...node.templateSpans.map(({ literal }) => literal)].some(({ text }) =>
    /\p{L}/u.test(text),
  );
}

/** Texts that an expression may become; those inside a call or a comparison are somebody else's. */
function textsOf(node: ts.Node): ts.Node[] {
  if (isWords(node)) return [node];
  if (ts.isConditionalExpression(node)) return [...textsOf(node.whenTrue), ...textsOf(node.whenFalse)];
  if (ts.isSpreadElement(node) || ts.isParenthesizedExpression(node)) return textsOf(node.expression);
  if (ts.isArrayLiteralExpression(node)) return node.elements.flatMap(textsOf);
  if (ts.isBinaryExpression(node) && node.operatorToken.kind !== ts.SyntaxKind.EqualsEqualsEqualsToken)
    return [...textsOf(node.left), ...textsOf(node.right)];
  return [];
}

/** The texts that a call shows. */
function shownBy(call: ts.CallExpression): ts.Node[] {
  const name = calledName(call);
  if (name === 'createWebviewPanel') return call.arguments.slice(1, 2).flatMap(textsOf);
  if (messages.test(name)) return call.arguments.flatMap(textsOf);
  if (!asks.test(name)) return [];
  return call.arguments.filter(ts.isObjectLiteralExpression).flatMap(({ properties }) =>
    properties
      .filter(ts.isPropertyAssignment)
      .filter((property) => asked.has(property.name.getText()))
      .flatMap(({ initializer }) => textsOf(initializer)),
  );
}

/** What is put on something that is seen: `item.tooltip = …`, `item.accessibilityInformation = { label: … }`. */
const seen = new Set(['text', 'tooltip', 'name', 'title', 'description', 'detail', 'message']);

/** The texts that an assignment shows. */
function shownOn({ left, right, operatorToken }: ts.BinaryExpression): ts.Node[] {
  if (operatorToken.kind !== ts.SyntaxKind.EqualsToken || !ts.isPropertyAccessExpression(left)) return [];
  if (seen.has(left.name.text)) return textsOf(right);
  if (left.name.text !== 'accessibilityInformation' || !ts.isObjectLiteralExpression(right)) return [];
  return right.properties
    .filter(ts.isPropertyAssignment)
    .filter((property) => property.name.getText() === 'label')
    .flatMap(({ initializer }) => textsOf(initializer));
}

export function wordsIn(name: string, text: string): Words {
  const file = ts.createSourceFile(name, text, ts.ScriptTarget.Latest, true);
  const words: Words = { keys: [], bare: [] };
  const visit = (node: ts.Node): void => {
    if (isLookUp(node)) {
      const [key] = node.arguments;
      if (key && ts.isStringLiteralLike(key)) words.keys.push(key.text);
      else words.bare.push(`${name}: ${node.getText()}`);
    } else if (ts.isCallExpression(node)) {
      words.bare.push(...shownBy(node).map((each) => `${name}: ${each.getText()}`));
    } else if (ts.isBinaryExpression(node)) {
      words.bare.push(...shownOn(node).map((each) => `${name}: ${each.getText()}`));
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return words;
}

/** Of all of the client. */
export function clientWords(): Words {
  const all = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
    .map((name) => wordsIn(name, readFileSync(path.join(folder, name), 'utf8')));
  return { keys: all.flatMap(({ keys }) => keys), bare: all.flatMap(({ bare }) => bare) };
}
