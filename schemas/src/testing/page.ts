/** The examples of the language page: the tests check them as they check files. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';

interface Example {
  /** What follows `yaml` at the head of the block: chassis, readings, timeline or settings. */
  readonly format: string;
  /** The line of the page on which the block starts. */
  readonly line: number;
  readonly text: string;
}

export function examplesOnPage(): Example[] {
  const page = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  return [...page.matchAll(/^( *)```yaml ?(\w*)\n([\s\S]*?)^ *```$/gm)].map((match) => {
    const [, indent, format, text] = match;
    return {
      format,
      line: page.slice(0, match.index).split('\n').length,
      text: text.replaceAll(new RegExp(`^${indent}`, 'gm'), ''),
    };
  });
}

/** The whole file of a format that the page shows first. */
// biome-ignore lint/suspicious/noExplicitAny: the tests change it at will
export function wholeExample(format: string): any {
  const example = examplesOnPage().find(
    (each) => each.format === format && each.text.startsWith('framewright:'),
  );
  if (example === undefined) throw new Error(`the page shows no whole ${format} file`);
  return parse(example.text);
}
