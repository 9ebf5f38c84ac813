import type { SeenGroup } from '../../inspection/frame/witnesses-seen';
import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { groupName, groupOffPhrase } from '../../wording/witness-words';
import { shortList } from '../../wording/wording';
import type { Rule } from '../rule/rule';

export const witnessOff: Rule = {
  name: 'base/witness-off',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'closed',
  inRecord: 'stages',
  wholeJob: true,
  page: {
    summary: 'A part that the job does not judge stands off, and so does not help to align the car.',
    why: 'Points of parts that nobody has in question help to align the car. One that stands off by more than its tolerance, by everything else, is not believed: there is damage that nobody has declared, or the sheet is wrong there. What is not in the scope is not judged at the sign-off, so somebody has to look at it.',
    example: 'scope: [front-rail]      # and the rear stands 9 mm low',
    exampleIn: {
      place: 'head',
      after: `  - measure: as received
    readings:
      floor-front.L: [1200, 420, 95]
      floor-front.R: [1200, -420, 95]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      tunnel-front.L: [905, 188, 242]
      tunnel-front.R: [905, -188, 242]
      cowl-hole.L: [1480, 612, 905]
      cowl-hole.R: [1480, -612, 905]
      strut-top.L: [2250, 561, 830]
      strut-top.R: [2250, -561, 830]
      pillar-belt-front.L: [352, 741, 868]
      pillar-belt-front.R: [352, -741, 868]
      rear-panel-middle: [-1120, 0, 491]
      rail-tip-lower.L: [3012, 448, 210]`,
    },
    mend: 'Look at the part. If it is damaged, add it to `scope:`, so that it is judged; else check its references.',
    source: 'Beaton & Tukey 1974; Huber 1981, Robust Statistics: what stands off loses its weight.',
  },
  ofJob: ({ inspection }) => {
    const said = new Set<string>();
    return inspection.stages.flatMap((stage) =>
      offGroups(stage)
        .filter(({ name }) => !said.has(name) && said.add(name))
        .map((group) => ({
          place: stage.measure.keyPlace,
          message: messageOf(inspection, group),
          related: stage.points
            .filter(({ id }) => group.ids.includes(id))
            .map(({ id, reading }) => ({ place: reading.key, message: `${id} is read here` })),
        })),
    );
  },
};

/** Of a stage's own alignment: one that was taken over says nothing new. */
export const offGroups = ({ alignment }: Stage): readonly SeenGroup[] =>
  alignment?.inherited === null ? (alignment.witnesses?.groups.filter(({ isOff }) => isOff) ?? []) : [];

/** An end of the car with the parts that are meant. */
function nameOf({ chassis }: Inspection, group: SeenGroup): string {
  const parts = group.ids.flatMap((id) => {
    const part = chassis.points.get(id)?.part;
    return part ? [chassis.parts.get(part)?.name ?? part] : [];
  });
  const listed = [...new Set(parts)].filter((part) => part !== group.name);
  return `${groupName(group)}${listed.length === 0 ? '' : ` (${shortList(listed, 4)})`}`;
}

const messageOf = (inspection: Inspection, group: SeenGroup): string =>
  `${nameOf(inspection, group)} stands ${groupOffPhrase(group, inspection.job.unit)} by everything else and is not in the scope, so it does not help to align: undeclared damage, or its references are wrong?`;
