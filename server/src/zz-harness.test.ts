import { test } from 'vitest';
import { readFileSync } from 'node:fs';
import { memoryFiles } from './workspace/memory-files';
import { Workspace } from './workspace/workspace';
test('h', async () => {
  const cases = JSON.parse(readFileSync('/tmp/fwh/cases.json', 'utf8'));
  for (const c of cases) {
    const files: Record<string,string> = {};
    for (const [k, v] of Object.entries(c.files)) files[`file:///shop/${k}`] = v as string;
    const t = Date.now();
    const a: any = await new Workspace(memoryFiles(files, 'file:///shop/')).analysis(`file:///shop/${c.name}`);
    const ms = Date.now() - t;
    console.log(`## ${c.title} (${ms} ms)`);
    if (!a.findings) { console.log(a); continue; }
    for (const f of a.findings.filter((f: any) => /^(text|name|settings|chassis)/.test(f.rule)).slice(0, 8)) {
      console.log(`  ${f.rule} «${a.text.slice(f.range.start, f.range.end).slice(0, 60)}» ${f.message.slice(0,300)}` + (f.replacements.length ? ` ⟹ ${f.replacements.map((r: any) => r.text).join(' | ')}` : ''));
    }
    if (a.findings.length > 8) console.log('  total', a.findings.length);
  }
});
