import { ruleNamed } from '../../findings/rule-list';
import { idsNamed } from '../../model/names';
import { descriptionsAt } from '../../model/read/schema-shape';
import type { Analysis } from '../../workspace/workspace';
import { schemaAbove } from '../file-schema';
import { partHover } from '../hover/hover-part';
import { referenceHover } from '../hover/hover-point';
import type { Subject } from './completion-item';

/** The page of what a completion would write, in Markdown; null where there is none. */
export function completionPage(analysis: Analysis, subject: Subject): string | null {
  if (subject.kind === 'rule') {
    const page = ruleNamed(subject.name)?.page;
    return page ? `${page.summary}\n\n${page.why}` : null;
  }
  if (subject.kind === 'key') {
    const steps = subject.path.map((step) => (step === '-' ? 0 : step));
    const [schema, rest] = schemaAbove(analysis.kind, steps, subject.entryKind);
    return descriptionsAt(schema, rest)[0] ?? null;
  }
  if (analysis.kind === 'settings' || analysis.chassis === null) return null;
  const { chassis } = analysis;
  const inspection = analysis.kind === 'readings' ? analysis.inspection : null;
  const known: ReadonlyMap<string, unknown> = subject.kind === 'point' ? chassis.points : chassis.parts;
  const [id] = idsNamed(subject.name, known);
  if (id === undefined) return null;
  return subject.kind === 'point'
    ? referenceHover(chassis.points.get(id)!, chassis, inspection)
    : partHover(chassis.parts.get(id)!, chassis, inspection);
}
