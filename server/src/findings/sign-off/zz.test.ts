import { readFileSync } from 'node:fs';
import { test } from 'vitest';
import { signOffState } from '../../inspection/sign-off';
import { linesOf } from '../../text/lines';
import { analysed } from '../fixture';

const read = (p: string) => readFileSync(new URL(`../../../../samples/${p}`, import.meta.url), 'utf8');
for (const job of [
  'w-1174-finished',
  'w-1212-procedure-mistakes',
  'w-1192-twisted-rail',
  'w-1201-side-impact',
  'w-1187-as-received',
  'w-1205-moved-control-point',
  'w-1211-measuring-mistakes',
  'w-1213-tram-only',
])
  test(job, async () => {
    const files = Object.fromEntries(
      ['specs/marten-hatch.chassis.yaml', 'specs/teal-estate.chassis.yaml', `jobs/${job}.readings.yaml`].map(
        (p) => [p, read(p)],
      ),
    );
    const a = await analysed(files, `jobs/${job}.readings.yaml`);
    if (a.kind !== 'readings' || !a.inspection) throw new Error('x');
    const l = linesOf(a.text);
    console.log(
      job +
        '\n' +
        a.findings
          .filter((f) => /body|procedure|sign-off/.test(f.rule))
          .map(
            (f) =>
              `${l.positionAt(f.range.start).line + 1}: ${f.severity} ${f.rule} ${f.message}\n    rel: ${f.related.map((r) => r.message).join(' | ')}`,
          )
          .join('\n') +
        '\n' +
        JSON.stringify(
          (({ closed, passes, rule, remaining }) => ({ closed, passes, rule, remaining }))(
            signOffState(a.inspection, a.settings),
          ),
        ),
    );
    for (const s of a.inspection.stages)
      for (const p of s.parts)
        if (p.bend.kind !== 'too-few-stations') console.log(s.name, p.part.id, JSON.stringify(p.bend));
  });
