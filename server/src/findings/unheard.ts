import type { Inspection } from '../inspection/job/inspect';
import type { Stage } from '../inspection/job/stage';
import { lazily } from '../memory/lazily';
import type { Chassis } from '../model/chassis';
import type { Job } from '../model/job';
import type { LineTable } from '../text/lines';
import { offsetsOf, type Place } from '../text/tree';
import type { Finding } from './rule/finding';
import { isUnread, raiserOf, ruleNamed } from './rule-list';

/** Whether a rule could not be asked about a line: what was not read or not judged may be just what it would speak of. */
export type Unheard = (rule: string, line: number) => boolean;

/** @param inspection null where there is no chassis to judge by */
export function unheardInJob(job: Job, inspection: Inspection | null, lines: LineTable): Unheard {
  const holes = lazily(() => (inspection === null ? null : unsettledLines(inspection, lines)));
  return (name, line) => {
    if (job.broken) return true;
    const needsChassis = raiserOf(name) === 'names' || ruleNamed(name)?.ofJob !== undefined;
    if (!needsChassis) return false;
    const unsettled = holes();
    if (inspection === null || unsettled === null || hasHoles(inspection.chassis)) return true;
    return ruleNamed(name)?.ofJob !== undefined && unsettled.has(line);
  };
}

export function unheardInChassis(chassis: Chassis): Unheard {
  return (name) =>
    chassis.broken ||
    (hasHoles(chassis) && (raiserOf(name) === 'names' || ruleNamed(name)?.ofChassis !== undefined));
}

/** A line that could not be read, or names what is not there: no other rule can be asked about it. */
export function unheardBeside(findings: readonly Finding[], lines: LineTable): Unheard {
  const linesInError = lazily(() => {
    const rulesAt = new Map<number, string[]>();
    for (const { rule, severity, range } of findings) {
      if (severity !== 'error' || !isUnread(rule)) continue;
      const { line } = lines.positionAt(range.start);
      rulesAt.set(line, [...(rulesAt.get(line) ?? []), rule]);
    }
    return rulesAt;
  });
  return (name, line) =>
    linesInError()
      .get(line)
      ?.some((rule) => rule !== name) ?? false;
}

/** Something of the body was not read. */
const hasHoles = ({ broken, unread }: Chassis): boolean =>
  broken || unread.points.size > 0 || unread.parts.size > 0;

/** The lines about which the figures are not settled: of stages without an alignment that stands, and of readings that are not judged. */
function unsettledLines({ stages }: Inspection, lines: LineTable): { has: (line: number) => boolean } {
  const linesOf = (place: Place): [number, number] => {
    const { start, end } = offsetsOf(place);
    return [lines.positionAt(start).line, lines.positionAt(end).line];
  };
  const measured = stages.map((stage) => ({ stage, span: linesOf(stage.measure.place) }));
  const single = new Set(stages.flatMap(unjudgedIn).map((place) => linesOf(place)[0]));
  const someUnsettled = stages.some(isUnsettled);
  return {
    has: (line) => {
      const at = measured.find(({ span: [first, last] }) => first <= line && line <= last);
      // what is concluded from the whole job stands at its work and at its head
      return at === undefined ? someUnsettled : isUnsettled(at.stage) || single.has(line);
    },
  };
}

const isUnsettled = ({ provisional, alignment }: Stage): boolean =>
  provisional || (alignment !== null && alignment.faults.length > 0);

function unjudgedIn({ measure, points, spans }: Stage): Place[] {
  const judged = new Set<unknown>([
    ...points.filter(({ verdict }) => verdict !== 'unjudged').map(({ reading }) => reading),
    ...spans.map(({ reading }) => reading),
  ]);
  return [
    ...measure.readings.filter((reading) => !judged.has(reading)).map(({ key }) => key),
    ...measure.spans.filter((reading) => !judged.has(reading)).map(({ place }) => place),
  ];
}
