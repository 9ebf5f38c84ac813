import type { DiffStanding, DiffTouched } from '@framewright/schemas';
import { faultIn } from '../findings/internal/fault';
import { standingOf } from '../findings/standing';
import type { Verdict } from '../inspection/alignment/verdict';
import { spanName } from '../inspection/gate/current-spans';
import { newestReleased, newestSpans } from '../inspection/job/newest';
import type { JobAnalysis } from '../workspace/workspace';
import { pairedMaps } from './compared';

/** How a job stands; null where it cannot be judged. */
export function standing({ job, inspection, settings, findings }: JobAnalysis): DiffStanding {
  if (inspection === null || faultIn(findings) !== null) return null;
  const state = standingOf({ inspection, settings, findings });
  const { signOff } = job;
  return {
    signed: signOff && { by: signOff.by, date: signOff.date },
    passes: state.passes,
    remaining: [...state.remaining],
    accepted: signOff?.accepted.length ?? 0,
    ignored: findings.filter(({ ignored }) => ignored !== null).length,
    changed:
      signOff === null || state.heldBack
        ? null
        : [
            ...(state.readingsChanged ? ['readings' as const] : []),
            ...(state.chassisChanged ? ['chassis' as const] : []),
          ],
  };
}

interface NewestVerdict {
  readonly stage: string;
  readonly verdict: Verdict;
}

/** What the newest readings off load say of each point and distance; nothing counts where a job cannot be judged. */
function newestVerdicts({ inspection }: JobAnalysis): Map<string, NewestVerdict> {
  if (inspection === null) return new Map();
  const points = [...newestReleased(inspection)].map(
    ([id, { stage, judged }]) => [id, { stage: stage.name, verdict: judged.verdict }] as const,
  );
  const spans = [...newestSpans(inspection).values()].map(
    ({ stage, span }) => [spanName(span), { stage: stage.name, verdict: span.verdict }] as const,
  );
  return new Map([...points, ...spans]);
}

/** What another chassis does to a job, in its newest readings. */
function verdictChanges(before: JobAnalysis, after: JobAnalysis): DiffTouched['verdicts'] {
  return pairedMaps(newestVerdicts(before), newestVerdicts(after)).flatMap(({ key, pair }) =>
    pair.before === null || pair.after === null || pair.before.verdict === pair.after.verdict
      ? []
      : [
          {
            name: key,
            stage: pair.after.stage,
            before: pair.before.verdict,
            after: pair.after.verdict,
          },
        ],
  );
}

/** A job that rests on what changed, before and after; null where it stands as before. */
export function touched(
  path: string,
  before: JobAnalysis,
  after: JobAnalysis,
  changedToo: boolean,
): DiffTouched | null {
  const [was, now] = [standing(before), standing(after)];
  const verdicts = verdictChanges(before, after);
  if (verdicts.length === 0 && JSON.stringify(was) === JSON.stringify(now)) return null;
  return { path, before: was, after: now, verdicts, changedToo };
}
