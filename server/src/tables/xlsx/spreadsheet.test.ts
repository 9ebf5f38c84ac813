import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { spreadsheetRead, spreadsheetWritten } from './spreadsheet';

const xml = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>';
const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const packaged = 'http://schemas.openxmlformats.org/package/2006';

/** A spreadsheet written by hand, with the rows as XML (ECMA-376, part 1, 18.3). */
const spreadsheet = (rows: string, more: Record<string, Uint8Array> = {}): Uint8Array =>
  zipSync({
    '[Content_Types].xml': strToU8(
      `${xml}<Types xmlns="${packaged}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`,
    ),
    '_rels/.rels': strToU8(
      `${xml}<Relationships xmlns="${packaged}/relationships"><Relationship Id="r1" Type="${office}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    ),
    'xl/workbook.xml': strToU8(
      `${xml}<workbook xmlns="${main}" xmlns:r="${office}"><sheets><sheet name="one" sheetId="1" r:id="r1"/></sheets></workbook>`,
    ),
    'xl/_rels/workbook.xml.rels': strToU8(
      `${xml}<Relationships xmlns="${packaged}/relationships"><Relationship Id="r1" Type="${office}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    ),
    'xl/worksheets/sheet1.xml': strToU8(
      `${xml}<worksheet xmlns="${main}"><sheetData>${rows}</sheetData></worksheet>`,
    ),
    ...more,
  });

const text = (at: string, value: string) => `<c r="${at}" t="inlineStr"><is><t>${value}</t></is></c>`;
const number = (at: string, value: string) => `<c r="${at}"><v>${value}</v></c>`;

describe('a spreadsheet', () => {
  it('gives its cells at their rows, numbers without the noise of a computation', async () => {
    const rows = `<row r="3">${text('A3', 'latch')}${number('B3', '0.30000000000000004')}${number('D3', '-434.1')}</row>`;
    expect(await spreadsheetRead(spreadsheet(rows))).toEqual({
      kind: 'sheets',
      sheets: [
        {
          name: 'one',
          rows: [
            ['', '', '', ''],
            ['', '', '', ''],
            ['latch', '0.3', '', '-434.1'],
          ],
        },
      ],
    });
  });

  it('gives of a formula the value that was saved, and of one without a value nothing', async () => {
    const rows = `<row r="1"><c r="A1"><f>1+1</f><v>7</v></c><c r="B1"><f>WEBSERVICE("http://127.0.0.1/")</f></c><c r="C1" t="str"><f>[1]other!A1</f><v>kept</v></c></row>`;
    const read = await spreadsheetRead(spreadsheet(rows));
    expect(read.kind === 'sheets' && read.sheets[0].rows[0].slice(0, 3)).toEqual(['7', '', 'kept']);
  });

  it('is read back as it was written, text that looks like a formula too', async () => {
    const rows = [
      ['id', 'x'],
      ['=1+1', 1.5],
      ['-5', { digits: '12.30' }],
      ['@x', null],
    ];
    const read = await spreadsheetRead(
      await spreadsheetWritten([
        { name: 'a', rows },
        { name: 'b', rows },
      ]),
    );
    const cells = [
      ['id', 'x'],
      ['=1+1', '1.5'],
      ['-5', '12.3'],
      ['@x', ''],
    ];
    expect(read).toEqual({
      kind: 'sheets',
      sheets: [
        { name: 'a', rows: cells },
        { name: 'b', rows: cells },
      ],
    });
  });

  it('is refused where it is none, where it is cut off, and where it would unpack to more than 50 MB', async () => {
    const whole = spreadsheet(`<row r="1">${text('A1', 'x')}</row>`);
    for (const bytes of [
      strToU8('PK\u0003\u0004 and nothing else'),
      whole.slice(0, whole.length - 40),
      zipSync({ 'a.txt': strToU8('a') }),
    ])
      expect((await spreadsheetRead(bytes)).kind).toBe('refused');
    const large = spreadsheet('', { 'xl/media/large.bin': new Uint8Array(51 * 1024 * 1024) });
    expect(large.length).toBeLessThan(1024 * 1024);
    expect(await spreadsheetRead(large)).toEqual({
      kind: 'refused',
      message: 'the table is larger than 50 MB',
    });
  });
});
