import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import ts from 'typescript';

/** What one file offers to others, and what it takes from them. */
interface FileNames {
  readonly exported: string[];
  /** `file#name`; the name is `*` where the whole file is taken */
  readonly imported: string[];
}

/** Every TypeScript file of some folders with the names that it exports and imports. */
export function namesOfFiles(root: string, folders: readonly string[]): Map<string, FileNames> {
  const files = folders.flatMap((folder) =>
    readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' }).map((name) =>
      path.posix.join(folder, name.replaceAll(path.sep, '/')),
    ),
  );
  return new Map(
    files
      .filter((file) => file.endsWith('.ts') && !/\/(node_modules|output|host|web-host)\//.test(file))
      .map((file) => [file, namesOf(root, file)]),
  );
}

/** `file#name` of each export that no file imports. */
export function unimported(all: ReadonlyMap<string, FileNames>): string[] {
  const taken = new Set([...all.values()].flatMap(({ imported }) => imported));
  return [...all].flatMap(([file, { exported }]) =>
    taken.has(`${file}#*`)
      ? []
      : exported.map((name) => `${file}#${name}`).filter((name) => !taken.has(name)),
  );
}

function namesOf(root: string, file: string): FileNames {
  const text = readFileSync(path.join(root, file), 'utf8');
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest);
  const exported: string[] = [];
  const imported: string[] = [];
  const takeFrom = (specifier: string, names: readonly string[]): void => {
    const from = fileOf(root, file, specifier);
    if (from !== null) imported.push(...names.map((name) => `${from}#${name}`));
  };
  const take = (specifier: ts.Node | undefined, names: readonly string[]): void => {
    if (specifier && ts.isStringLiteral(specifier)) takeFrom(specifier.text, names);
  };
  for (const node of source.statements) {
    if (ts.isImportDeclaration(node)) take(node.moduleSpecifier, importedNames(node.importClause));
    if (ts.isExportDeclaration(node)) {
      const clause = node.exportClause;
      const names = clause && ts.isNamedExports(clause) ? clause.elements : null;
      exported.push(...(names ?? []).map(({ name }) => name.text));
      take(node.moduleSpecifier, names?.map((each) => (each.propertyName ?? each.name).text) ?? ['*']);
    }
    if (isExported(node)) exported.push(...declaredNames(node));
  }
  // in the middle of the code: what of the file is used is not looked at
  for (const [, specifier] of text.matchAll(/\bimport\(\s*'([^']+)'/g)) takeFrom(specifier, ['*']);
  return { exported: [...new Set(exported)], imported };
}

function importedNames(clause: ts.ImportClause | undefined): string[] {
  const named = clause?.namedBindings;
  if (named === undefined) return clause?.name ? ['default'] : [];
  return ts.isNamespaceImport(named)
    ? ['*']
    : named.elements.map((each) => (each.propertyName ?? each.name).text);
}

const isExported = (node: ts.Node): boolean =>
  ts.canHaveModifiers(node) &&
  (ts.getModifiers(node) ?? []).some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword);

function declaredNames(node: ts.Node): string[] {
  const declarations = ts.isVariableStatement(node) ? node.declarationList.declarations : [node];
  return declarations.flatMap((each) => {
    const name = ts.getNameOfDeclaration(each as ts.Declaration);
    return name && ts.isIdentifier(name) ? [name.text] : [];
  });
}

/** The file that an import means, from the root; null for a library. */
function fileOf(root: string, from: string, specifier: string): string | null {
  if (specifier === '@framewright/schemas') return 'schemas/src/index.ts';
  if (specifier === '@framewright/schemas/wire') return 'schemas/src/wire.ts';
  if (!specifier.startsWith('.')) return null;
  const base = path.posix.join(path.posix.dirname(from), specifier);
  return [`${base}.ts`, `${base}/index.ts`].find((each) => existsSync(path.join(root, each))) ?? null;
}
