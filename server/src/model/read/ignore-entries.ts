import { entryOf, textOf } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';

/**
 * The entries of `ignore` in a settings file: paths from its folder, and patterns as in `.gitignore`. Apart from the other settings, for it
 * is asked of every folder before anything else is loaded. A list that holds anything but words ignores nothing, as a finding says.
 */
export function ignoreEntries(text: string): readonly string[] {
  // escapes could spell the key in another way
  if (!/ignore|\\/.test(text)) return [];
  const { root } = parseText(text);
  const kind = entryOf(root, 'framewright')?.value;
  const isOther = kind?.kind === 'scalar' && /^(chassis|readings)(\/|$)/.test(textOf(kind));
  const list = entryOf(root, 'ignore')?.value;
  if (isOther || list?.kind !== 'sequence') return [];
  const entries: string[] = [];
  for (const item of list.items) {
    if (item.kind !== 'scalar' || typeof item.value !== 'string' || item.value === '') return [];
    entries.push(item.value);
  }
  return entries;
}
