import { expect, it } from 'vitest';
import { analysisAt } from '../testing/asked';
import { completionsAt } from './completions';

const name = '.framewright.yaml';
const head = 'framewright: settings/1\ntables:\n  arm:\n';
const able = { snippets: true, chassisFiles: async () => [] };

async function labels(text: string): Promise<string[]> {
  const { analysis, offset } = await analysisAt({ [name]: text }, name);
  return (await completionsAt(analysis, offset, able)).map(({ label }) => label);
}

it('the keys and words of a table layout are offered in the settings', async () => {
  expect(await labels(`${head}    $0`)).toEqual(
    expect.arrayContaining(['columns', 'decimal', 'units', 'axes', 'skip', 'unreachable', 'names']),
  );
  expect(await labels(`${head}    columns: { point: Name, $0 }`)).toEqual(
    expect.arrayContaining(['side', 'length', 'width', 'height', 'remark', 'repeat', 'stage']),
  );
  expect(await labels(`${head}    decimal: $0`)).toEqual(expect.arrayContaining(['point', 'comma']));
});

it('what a layout cannot mean is told where it stands', async () => {
  const text = `${head}    columns: { point: Name, length: X, width: Y }\n    decimal: semicolon\n    skip: -1$0\n`;
  const { analysis } = await analysisAt({ [name]: text }, name);
  const told = analysis.findings.map(({ range, message }) => [
    analysis.text.slice(range.start, range.end),
    message,
  ]);
  expect(told).toHaveLength(3);
  expect(told.map(([about]) => about)).toEqual(
    expect.arrayContaining(['semicolon', '-1', expect.stringContaining('columns')]),
  );
});
