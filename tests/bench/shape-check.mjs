// What is compared with: reads files, parses them and checks their shape, nothing more.
// js-yaml 4, as 5 is slower on these files.
// node shape-check.mjs SCHEMA-FOLDER FOLDER…
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import Ajv from 'ajv';
import { CORE_SCHEMA, load } from 'js-yaml';

const [schemas, ...folders] = process.argv.slice(2);
const ajv = new Ajv({ strict: false, allErrors: true });
const kinds = ['chassis', 'readings'];
const validators = Object.fromEntries(
  kinds.map((kind) => [
    kind,
    ajv.compile(JSON.parse(readFileSync(path.join(schemas, `${kind}.schema.json`), 'utf8'))),
  ]),
);

let files = 0;
let faulty = 0;
for (const folder of folders) {
  for (const name of readdirSync(folder)) {
    const validate = validators[name.split('.').at(-2)];
    if (!validate) continue;
    files++;
    if (validate(load(readFileSync(path.join(folder, name), 'utf8'), { schema: CORE_SCHEMA }))) continue;
    faulty++;
    console.log(`${name}: ${ajv.errorsText(validate.errors)}`);
  }
}
console.log(`${files} files, ${faulty} faulty`);
process.exitCode = faulty > 0 ? 1 : 0;
