import { sampleTexts } from '../../commands/recorded.fixture';
import { analysed } from '../../findings/testing/analysed';
import { settingsFrom } from '../../model/read/settings';
import { parseText } from '../../text/yaml/parse';
import { namedRows } from '../named-rows';
import { faultText, readTable } from '../table-reading';
import { tableBytes } from '../table-text';

const body = await analysed(sampleTexts, 'specs/marten-hatch.chassis.yaml');
if (body.kind !== 'chassis') throw new Error('the sample body is none');
const marten = body.chassis;

const layoutOf = (yaml: string) => {
  const lines = yaml.split('\n').map((line) => `    ${line}`);
  const tree = parseText(['framewright: settings/1', 'tables:', '  one:', ...lines, ''].join('\n'));
  const { settings, problems } = settingsFrom(tree, 'file:///shop/.framewright.yaml');
  const entry = settings.tables.get('one');
  if (entry === undefined || problems.length > 0) throw new Error(JSON.stringify(problems));
  return entry;
};

/**
 * What a table means, one line a row: `rail-tip-lower.L 1 2 3 # remark`; of what is not understood, where and why: `row 3, column 2: …`.
 */
export function meaning(table: string | Uint8Array, layout: string | null = null): string[] {
  const read = typeof table === 'string' ? ({ kind: 'text', text: table } as const) : tableBytes(table);
  if (read.kind !== 'text') return [read.kind === 'refused' ? read.message : 'a spreadsheet'];
  const content = readTable(read.text, layout === null ? null : layoutOf(layout));
  if ('message' in content) return [faultText(content)];
  const { rows, unknown } = namedRows(content.rows, marten.points, content.layout.names);
  const said = rows.map(({ id, toId, value, remark }) => {
    const numbers =
      value.kind === 'numbers'
        ? value.digits.join(' ')
        : value.kind === 'distance'
          ? `${toId} ${value.digits}`
          : `${toId === null ? '' : `${toId} `}unreachable`;
    return `${id} ${numbers}${remark === null ? '' : ` # ${remark}`}`;
  });
  const refused = [...content.refused, ...unknown].sort((a, b) => a.row - b.row).map(faultText);
  const left = content.leftOut.map(({ row, why }) => `row ${row} left out: ${why}`);
  return [...said, ...refused, ...left];
}
