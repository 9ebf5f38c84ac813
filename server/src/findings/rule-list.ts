import { ambiguous } from './base/ambiguous';
import { carried } from './base/carried';
import { collinear } from './base/collinear';
import { doubted } from './base/doubted';
import { inconsistent } from './base/inconsistent';
import { listContradicts } from './base/list-contradicts';
import { mirrored } from './base/mirrored';
import { moved } from './base/moved';
import { scale } from './base/scale';
import { tooFew } from './base/too-few';
import { unchecked } from './base/unchecked';
import { weak } from './base/weak';
import { witnessOff } from './base/witness-off';
import { condition } from './body/condition';
import { coincidentPoints } from './chassis/coincident-points';
import { direction } from './chassis/direction';
import { looserPart } from './chassis/looser-part';
import { noSource } from './chassis/no-source';
import { outlier } from './chassis/outlier';
import { overrideDrops } from './chassis/override-drops';
import { spanDisagrees } from './chassis/span-disagrees';
import { spanDropped } from './chassis/span-dropped';
import { transposedDigits } from './chassis/transposed-digits';
import { twistUnobservable } from './chassis/twist-unobservable';
import { undecidable } from './chassis/undecidable';
import { units } from './chassis/units';
import { widerTolerance } from './chassis/wider-tolerance';
import { calibration } from './instrument/calibration';
import { fault } from './internal/fault';
import { extendsCycle } from './name/extends-cycle';
import { fileNotFound } from './name/file-not-found';
import { needsSide } from './name/needs-side';
import { unknownPart } from './name/unknown-part';
import { unknownPoint } from './name/unknown-point';
import { unusedPart } from './name/unused-part';
import { heat } from './procedure/heat';
import { joinAlone } from './procedure/join-alone';
import { kinked } from './procedure/kinked';
import { neverStraighten } from './procedure/never-straighten';
import { noHold } from './procedure/no-hold';
import { notRelieved } from './procedure/not-relieved';
import { pullAgainst } from './procedure/pull-against';
import { sectionBand } from './procedure/section-band';
import { sectionInStraightened } from './procedure/section-in-straightened';
import { underTension } from './procedure/under-tension';
import { unrecorded } from './procedure/unrecorded';
import { asBefore } from './reading/as-before';
import { conditions } from './reading/conditions';
import { contradicted } from './reading/contradicted';
import { copied } from './reading/copied';
import { coverage } from './reading/coverage';
import { gross } from './reading/gross';
import { hiddenTwist } from './reading/hidden-twist';
import { leftOut } from './reading/left-out';
import { noUncertainty } from './reading/no-uncertainty';
import { oneLevel } from './reading/one-level';
import { order } from './reading/order';
import { outside } from './reading/outside';
import { repeatSpread } from './reading/repeat-spread';
import { scope } from './reading/scope';
import { spanOutside } from './reading/span-outside';
import { spanUndecided } from './reading/span-undecided';
import { staleSummary } from './reading/stale-summary';
import { suspectDistance } from './reading/suspect-distance';
import { undecided } from './reading/undecided';
import type { Raiser, Rule } from './rule/rule';
import { emptyReason } from './settings/empty-reason';
import { ignoreMatchesNothing } from './settings/ignore-matches-nothing';
import { unusedIgnore } from './settings/unused-ignore';
import { changed as signOffChanged } from './sign-off/changed';
import { chassisChanged as signOffChassisChanged } from './sign-off/chassis-changed';
import { noScope } from './sign-off/no-scope';
import { notJoined } from './sign-off/not-joined';
import { oldSeal } from './sign-off/old-seal';
import { oldSignature } from './sign-off/old-signature';
import { openDamage } from './sign-off/open-damage';
import { outside as signOffOutside } from './sign-off/outside';
import { procedure as signOffProcedure } from './sign-off/procedure';
import { tension as signOffTension } from './sign-off/tension';
import { undecided as signOffUndecided } from './sign-off/undecided';
import { unmeasured as signOffUnmeasured } from './sign-off/unmeasured';
import { duplicateKey } from './text/duplicate-key';
import { missingKey } from './text/missing-key';
import { syntax } from './text/syntax';
import { tooLarge } from './text/too-large';
import { unknownKey } from './text/unknown-key';
import { wrongType } from './text/wrong-type';

/** Every rule, in the order of the pages. A new rule is a new file and one line here. */
export const rules: readonly Rule[] = [
  syntax,
  unknownKey,
  wrongType,
  missingKey,
  duplicateKey,
  tooLarge,
  unknownPoint,
  unknownPart,
  needsSide,
  fileNotFound,
  extendsCycle,
  unusedPart,
  spanDisagrees,
  spanDropped,
  overrideDrops,
  widerTolerance,
  transposedDigits,
  coincidentPoints,
  units,
  twistUnobservable,
  undecidable,
  direction,
  outlier,
  looserPart,
  noSource,
  tooFew,
  collinear,
  mirrored,
  scale,
  inconsistent,
  ambiguous,
  doubted,
  listContradicts,
  witnessOff,
  carried,
  moved,
  weak,
  unchecked,
  outside,
  spanOutside,
  spanUndecided,
  undecided,
  hiddenTwist,
  oneLevel,
  gross,
  contradicted,
  repeatSpread,
  noUncertainty,
  conditions,
  calibration,
  coverage,
  leftOut,
  order,
  copied,
  asBefore,
  scope,
  suspectDistance,
  unusedIgnore,
  emptyReason,
  ignoreMatchesNothing,
  staleSummary,
  condition,
  neverStraighten,
  kinked,
  sectionBand,
  sectionInStraightened,
  heat,
  unrecorded,
  notRelieved,
  underTension,
  pullAgainst,
  noHold,
  joinAlone,
  signOffOutside,
  signOffUnmeasured,
  signOffTension,
  signOffProcedure,
  openDamage,
  notJoined,
  signOffUndecided,
  signOffChanged,
  signOffChassisChanged,
  oldSeal,
  noScope,
  oldSignature,
  fault,
];

const byName = new Map(rules.map((rule) => [rule.name, rule]));

export const ruleNamed = (name: string): Rule | undefined => byName.get(name);

/** Who raises a rule that has no check of its own. */
export const raiserOf = (name: string): Raiser | undefined => ruleNamed(name)?.raisedBy;

/** What it marks cannot be read, or names what is not there. */
export function isUnread(name: string): boolean {
  const raiser = raiserOf(name);
  return raiser === 'text' || raiser === 'names';
}
