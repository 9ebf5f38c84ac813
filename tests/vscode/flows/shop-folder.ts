/** A shop for flows: the samples, with tables beside them that hold what the arm showed of the as-received car. */
import { cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { inject } from 'vitest';
import { spreadsheetWritten } from '../../../server/src/tables/xlsx/spreadsheet';

const samples = path.join(import.meta.dirname, '../../../samples');
const sample = readFileSync(path.join(samples, 'jobs/w-1187-as-received.readings.yaml'), 'utf8');

/** The first reading of each point of the sample, as its digits stand there. */
export const readings: readonly (readonly [id: string, numbers: readonly string[]])[] = [
  ...sample.matchAll(/^ +([\w.-]+): +\[\[?([ \d.,-]+)\]/gm),
].map(([, id, numbers]) => [id, numbers.split(',').map((each) => each.trim())]);

/** `rail-tip-lower.L` → `rail tip lower L`, as people write it in a table. */
const spoken = (id: string): string => id.replaceAll(/[.-]/g, ' ');

/** A table of the first readings. @param comma decimals stand behind one */
export const tableOf = (count: number, delimiter: string, comma: boolean): string =>
  [['Name', 'X', 'Y', 'Z'], ...readings.slice(0, count).map(([id, numbers]) => [spoken(id), ...numbers])]
    .map((cells, i) => cells.map((cell) => (comma && i > 0 ? cell.replace('.', ',') : cell)).join(delimiter))
    .join('\n');

const begun = `framewright: readings/1
chassis: ../specs/marten-hatch.chassis.yaml
order: W-3001
technician: jm
instrument: { name: bench arm 2, uncertainty: 0.4, repeatability: 0.25 }

timeline:
  - measure: as received
    readings:
      # latch: [ , , ]
      
`;

let made: Promise<string> | undefined;
/** One for all flows, which so share a window; it goes with the run. */
export const shopFolder = (): Promise<string> => {
  made ??= newFolder();
  return made;
};

async function newFolder(): Promise<string> {
  const folder = mkdtempSync(path.join(inject('shared').scratch, 'shop-'));
  cpSync(samples, folder, { recursive: true });
  const write = (name: string, text: string | Uint8Array) => writeFileSync(path.join(folder, name), text);
  write('jobs/w-3001.readings.yaml', begun);
  write('arm.csv', `${tableOf(4, ';', true)}\n`);
  write('broken.csv', 'Name;X;Y;Z\nlatch;1;2;3\nno such point;1,5;x;3\n');
  const rows = tableOf(30, '\t', false)
    .split('\n')
    .map((line) => line.split('\t').map((cell) => (/^-?\d/.test(cell) ? { digits: cell } : cell)));
  write('arm.xlsx', await spreadsheetWritten([{ name: 'arm', rows }]));
  write(
    'body.csv',
    'name,side,length,width,height\nrail tip,L,3012,448,210\nrail tip,R,3012,448,210\nlatch,,3100,0,640\n',
  );
  return folder;
}
