import { type SignOffState, signOffState } from '../../inspection/gate/sign-off';
import type { SignOff } from '../../model/job';
import type { Draft, JobContext } from '../rule/rule';

/** What a sign-off does not cover; every message about one says it. */
export const coversDimensionsOnly = 'A sign-off covers dimensions only.';
export const coversDimensionsOnlyPage =
  'A sign-off covers dimensions only: not welds, corrosion protection, wheel alignment, restraints or calibrations. For those, as for the ' +
  "whole repair, the maker's procedure decides.";

/** The drafts about a closed job; none about an open one. */
export function ofClosed(
  { inspection, settings }: JobContext,
  drafts: (state: SignOffState, signOff: SignOff) => Draft[],
): Draft[] {
  const { signOff } = inspection.job;
  return signOff === null ? [] : drafts(signOffState(inspection, settings), signOff);
}
