import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { type CommandName, commands, factsOf, isCommand, oneOf } from './command-table';
import { commandHelp, commandLines, wholeHelp } from './help';

const names = Object.keys(commands).filter(isCommand);
/** `name.option`, for options that a person may give. */
const options = names.flatMap((name) =>
  Object.entries(factsOf(name).options)
    .filter(([, { says }]) => says !== undefined)
    .map(([option, { says }]): [CommandName, string, string] => [name, option, says ?? '']),
);

it('the README shows the commands as the table has them', () => {
  const readme = readFileSync(path.join(import.meta.dirname, '../../../README.md'), 'utf8');
  const block = /## The command line\n\n```\n([\s\S]*?)\n```/.exec(readme)?.[1];
  expect(block).toBe(commandLines().join('\n'));
});

describe('help', () => {
  it.each(names)('has %s', (name) => {
    expect(wholeHelp()).toContain(`  ${commands[name].usage}  `);
    expect(commandHelp(name)).toContain(`usage: framewright ${commands[name].usage}`);
    expect(commandHelp(name)).toContain(commands[name].says);
  });

  it.each(options)('of %s has --%s', (name, option, says) => {
    const line = commandHelp(name)
      .split('\n')
      .find((each) => each.includes(`--${option}`) && each.endsWith(says));
    expect(line).toBeDefined();
  });

  it('leaves out what is for programs, and what its usage says already', () => {
    expect(commandHelp('lsp')).not.toMatch(/node-ipc|clientProcessId/);
    expect(wholeHelp()).not.toMatch(/^ +(-o, )?--(output|json|stdio)/m);
    expect(wholeHelp()).toMatch(/^ {6}--format text\|json {2}/m);
    expect(wholeHelp()).toMatch(/^ {6}--format NAME {2}.*\n {9,}NAME: text, concise, .* or sarif$/m);
  });

  it('stands in two columns and fits a wide terminal', () => {
    const starts = wholeHelp()
      .split('\n')
      // neither the names of a choice nor the second line of the exit codes
      .filter((line) => /^ {2,6}\S/.test(line) && !line.includes('output that'))
      .map((line) => /^ {2,6}\S.*? {2,}(?=\S)/.exec(line)?.[0].length);
    expect(starts.length).toBeGreaterThan(12);
    expect(new Set(starts).size).toBe(1);
    for (const line of wholeHelp().split('\n')) expect(line.length).toBeLessThanOrEqual(125);
  });
});

it('an option that several commands take is the same in each, but for its choices', () => {
  const seen = new Map<string, unknown>();
  for (const name of names)
    for (const [option, { choices: _, ...facts }] of Object.entries(factsOf(name).options)) {
      expect(facts, option).toEqual(seen.get(option) ?? facts);
      seen.set(option, facts);
    }
  expect(seen.size).toBeGreaterThan(8);
});

it.each([
  [['a'], 'a'],
  [['a', 'b'], 'a or b'],
  [['a', 'b', 'c'], 'a, b or c'],
])('%j is one of %s', (words, said) => {
  expect(oneOf(words)).toBe(said);
});
