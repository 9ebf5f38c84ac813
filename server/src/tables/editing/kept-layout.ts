import { settingsFrom } from '../../model/read/settings';
import { applyEdits, entryInsertion, entryReplacement, plainOrQuoted } from '../../text/edits';
import { entryOf, isNothing } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';

/** Settings with a table layout more, or why they cannot take it. @param text null: there are none yet @param lines of the layout, as they stand below its name */
export function withLayout(
  text: string | null,
  name: string,
  lines: readonly string[],
): { readonly text: string } | { readonly message: string } {
  const written = plainOrQuoted(name);
  const block = [`${written}:`, ...lines.map((line) => `  ${line}`)];
  if (text === null)
    return { text: `framewright: settings/1\ntables:\n${block.map((line) => `  ${line}\n`).join('')}` };
  const tree = parseText(text);
  const { root } = tree;
  const before = settingsFrom(tree, '');
  if (root?.kind !== 'map' || root.flow || tree.problems.length > 0)
    return { message: 'the settings cannot be read: mend them first' };
  if (before.settings.tables.has(name)) return { message: `the settings have a layout ${name} already` };
  const tables = entryOf(root, 'tables');
  const edit =
    tables === undefined
      ? entryInsertion(tree, root, 'tables', ['', ...block])
      : isNothing(tables.value)
        ? entryReplacement(tree, root, tables, ['', ...block])
        : tables.value?.kind === 'map' && !tables.value.flow
          ? entryInsertion(tree, tables.value, name, ['', ...lines])
          : null;
  if (edit === null) return { message: 'the settings have their tables in braces: write the layout by hand' };
  const after = applyEdits(text, [edit]);
  return settingsFrom(parseText(after), '').settings.tables.has(name)
    ? { text: after }
    : { message: 'the settings cannot take the layout: write it by hand' };
}
