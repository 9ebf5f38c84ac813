import {
  chassisText,
  controlIds,
  type Displacement,
  inspectionOf,
  jobText,
  measureText,
  railIds,
  referenceOf,
} from '../../testing/pulled-rail';
import { type PullPlan, pullPlan } from './plan';

/** A rail that was bent or twisted, and its plan. */

export const left = 'front-rail.L';
export const ids = [...controlIds, ...railIds('L')];

/** Bent at 2200: beyond it the rail leans off by a share of the way. */
export const bent =
  (sideways: number, up = 0): Displacement =>
  (id) => {
    const beyond = Math.max(0, referenceOf(id)[0] - 2200);
    return railIds('L').includes(id) ? [0, sideways * beyond, up * beyond] : [0, 0, 0];
  };

/** Turned about the middle of its section, more towards the tip: + the top leans right. */
export const twisted =
  (mmAtTip: number): Displacement =>
  (id) => {
    const [x, , z] = referenceOf(id);
    return railIds('L').includes(id)
      ? [0, (-mmAtTip * Math.max(0, x - 2200) * (z - 260)) / (800 * 70), 0]
      : [0, 0, 0];
  };

export const jobOf = (displacement: Displacement, ...more: string[]) =>
  jobText([measureText('as received', ids, displacement), ...more]);
export const planned = (displacement: Displacement, facts?: string, ...more: string[]): PullPlan =>
  pullPlan(inspectionOf(chassisText(facts), jobOf(displacement, ...more)), left);

export function planOf(plan: PullPlan): Extract<PullPlan, { kind: 'plan' }> {
  if (plan.kind !== 'plan') throw new Error(JSON.stringify(plan.kind === 'unknown' ? plan.why : plan.kind));
  return plan;
}
