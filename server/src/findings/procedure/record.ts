import type { Chassis, Part } from '../../model/chassis';
import type { Pull } from '../../model/job';
import type { Related } from '../../model/problem';
import { partsOfEntry } from '../../model/resolve/resolved-job';
import type { Place } from '../../text/tree';

/** Where the maker's procedure for a part stands, for a message: ` (body repair manual 31-20)`. */
export const referenceOf = ({ reference }: Part): string => (reference === null ? '' : ` (${reference})`);

/** What the chassis file records of a part. */
export const recordOf = (part: Part): Related => ({
  message: `what is recorded of ${part.id}`,
  place: part.origin.place,
  uri: part.origin.uri,
});

/** Where a pull says that it loads a part: its `part`, else the hook that stands on it. */
export function placeOfPull(pull: Pull, part: Part, chassis: Chassis): Place {
  if (pull.part !== null && partsOfEntry(pull, chassis).includes(part.id)) return pull.part.place;
  const hooked = pull.chains.find(({ hook }) => chassis.points.get(hook.id)?.part === part.id);
  return hooked?.hook.place ?? pull.keyPlace;
}
