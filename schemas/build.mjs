// Writes json/*.schema.json from the zod schemas in src/.
import { mkdir, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = new URL('.', import.meta.url);
// Node 20 reads no TypeScript: bundle it in memory and import the text.
const { outputFiles } = await build({
  entryPoints: [fileURLToPath(new URL('src/json-schema.ts', here))],
  bundle: true,
  format: 'esm',
  platform: 'neutral',
  mainFields: ['module', 'main'],
  write: false,
});
const code = Buffer.from(outputFiles[0].contents).toString('base64');
const { jsonSchemaTexts } = await import(`data:text/javascript;base64,${code}`);

await mkdir(new URL('json/', here), { recursive: true });
for (const [name, text] of Object.entries(jsonSchemaTexts())) {
  await writeFile(new URL(`json/${name}`, here), text);
}
