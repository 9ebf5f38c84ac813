import ts from 'typescript';

/**
 * Promises of a program that nobody waits for: a statement that is one, `void` before one, and a function that gives one where the caller
 * takes nothing back. What such a promise is rejected with ends the process; `unawaited` takes it.
 */
export function floatingPromises(program: ts.Program, isWanted: (file: string) => boolean): string[] {
  const checker = program.getTypeChecker();
  const found: string[] = [];
  const isPromise = (type: ts.Type): boolean =>
    type.isUnionOrIntersection()
      ? type.types.some(isPromise)
      : ['then', 'catch'].every((name) => type.getProperty(name) !== undefined);
  const isDropped = ({ parent }: ts.Node): boolean =>
    ts.isExpressionStatement(parent) ||
    ts.isVoidExpression(parent) ||
    (ts.isParenthesizedExpression(parent) && isDropped(parent)) ||
    (ts.isConditionalExpression(parent) && isDropped(parent)) ||
    (ts.isBinaryExpression(parent) && !isAssignment(parent) && isDropped(parent));
  /** The caller takes nothing back: `setTimeout(async () => …)`. */
  const isForNothing = (node: ts.Expression): boolean => {
    if (!ts.isArrowFunction(node) && !ts.isFunctionExpression(node)) return false;
    const wanted = checker.getContextualType(node)?.getCallSignatures() ?? [];
    const isVoid = (each: ts.Signature) => (each.getReturnType().flags & ts.TypeFlags.Void) !== 0;
    if (wanted.length === 0 || !wanted.every(isVoid)) return false;
    const [own] = checker.getTypeAtLocation(node).getCallSignatures();
    return own !== undefined && isPromise(own.getReturnType());
  };
  const visit = (node: ts.Node): void => {
    if (ts.isExpression(node)) {
      const isCall = ts.isCallExpression(node) || ts.isNewExpression(node) || ts.isIdentifier(node);
      if ((isCall && isDropped(node) && isPromise(checker.getTypeAtLocation(node))) || isForNothing(node))
        found.push(placeOf(node));
    }
    ts.forEachChild(node, visit);
  };
  for (const file of program.getSourceFiles()) if (isWanted(file.fileName)) visit(file);
  return found;
}

const isAssignment = ({ operatorToken: { kind } }: ts.BinaryExpression): boolean =>
  kind >= ts.SyntaxKind.FirstAssignment && kind <= ts.SyntaxKind.LastAssignment;

function placeOf(node: ts.Node): string {
  const file = node.getSourceFile();
  const { line } = file.getLineAndCharacterOfPosition(node.getStart());
  return `${file.fileName}:${line + 1}: ${node.getText().split('\n')[0]}`;
}
