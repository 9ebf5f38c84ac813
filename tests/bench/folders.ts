import path from 'node:path';

// The bundle that is run stands in tests/output/, as deep as this folder.
export const root = path.join(import.meta.dirname, '../..');
export const benchFolder = path.join(root, 'tests/bench');
export const schemaFolder = path.join(root, 'schemas/json');
export const commandLine = path.join(root, 'server/bin/framewright.js');
export const peerModule = (name: string): string => path.join(benchFolder, 'node_modules', name);
