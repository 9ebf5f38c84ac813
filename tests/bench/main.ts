// How fast, and beside what: `npm run bench`, or `npm run bench -- --only edit --sizes 600,10000 --quick`.
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { batchTimes } from './batch';
import { drawingTimes } from './drawing';
import { type FileTimes, fileTimes } from './edit-times';
import { installPeers, peerVersions } from './peers';
import { printed } from './print';
import { repositoryTimes } from './repository';
import { holds, requirements } from './requirements';
import { ours, peerServers } from './servers';
import { startTimes } from './start';
import { tableTimes } from './tables';

const parts = ['edit', 'batch', 'start', 'repository', 'drawing', 'tables'];
const { values } = parseArgs({
  options: {
    only: { type: 'string', default: parts.join(',') },
    sizes: { type: 'string', default: '100,600,10000,50000' },
    /** Fewer turns and smaller batches. */
    quick: { type: 'boolean', default: false },
    /** Editing without the servers that it is compared with. */
    ours: { type: 'boolean', default: false },
  },
});
const { quick } = values;
const wanted = values.only.split(',');
const unknown = wanted.find((part) => !parts.includes(part));
if (unknown !== undefined) throw new Error(`--only takes ${parts.join(', ')}; not ${unknown}`);
const sizes = values.sizes.split(',').map(Number);

installPeers();
const folder = mkdtempSync(path.join(tmpdir(), 'framewright-bench-'));
const own = (name: string): string => {
  mkdirSync(path.join(folder, name));
  return path.join(folder, name);
};
try {
  const files: FileTimes[] = [];
  if (wanted.includes('edit')) {
    const edit = own('edit');
    const servers = values.ours ? [ours] : [ours, ...peerServers()];
    for (const readings of sizes) {
      for (const outside of [false, true]) {
        console.error(`editing ${readings} readings, ${outside ? '5 % outside' : 'no finding'} …`);
        files.push(await fileTimes(edit, servers, { readings, outside, quick }));
      }
    }
  }
  if (wanted.includes('batch')) console.error('checking many jobs …');
  const batch = wanted.includes('batch') ? await batchTimes(own('batch'), quick) : null;
  if (wanted.includes('start')) console.error('starting …');
  const start = wanted.includes('start') ? await startTimes(own('start'), quick) : null;
  if (wanted.includes('repository')) console.error('opening a repository …');
  const repository = wanted.includes('repository') ? await repositoryTimes(own('repository'), quick) : null;

  if (wanted.includes('drawing')) console.error('drawing …');
  const drawing = wanted.includes('drawing') ? await drawingTimes(quick ? 20 : 100) : null;

  if (wanted.includes('tables')) console.error('tables …');
  const tables = wanted.includes('tables') ? await tableTimes(own('tables'), quick) : null;

  const versions = Object.entries(peerVersions()).map(([name, version]) => `${name} ${version}`);
  const machine = `${availableParallelism()} cores, Node ${process.versions.node}, ${process.platform} ${process.arch}; beside ${versions.join(', ')}.`;
  const measured = { files, batch, start, repository, drawing, tables };
  console.log(printed(measured, machine));
  process.exitCode = requirements(measured).some((each) => holds(each) === false) ? 1 : 0;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
