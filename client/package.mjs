// Packs the extension. The same files give the same bytes, whenever and wherever: entries stand in one order, all of one time, with permissions that do not
// come from whoever packs.
import { chmodSync, statSync } from 'node:fs';
import { createVSIX, listFiles, PackageManager } from '@vscode/vsce';

const folder = import.meta.dirname;
process.env.SOURCE_DATE_EPOCH ??= String(Date.UTC(2020, 0, 1) / 1000);
// archives hold the time of a clock on the wall
process.env.TZ = 'UTC';

// all that runs is in the bundles, here and below
for (const name of await listFiles({ cwd: folder, packageManager: PackageManager.None })) {
  const file = `${folder}/${name}`;
  chmodSync(file, (statSync(file).mode & 0o100) === 0 ? 0o644 : 0o755);
}
await createVSIX({ cwd: folder, dependencies: false, packagePath: `${folder}/framewright.vsix` });
