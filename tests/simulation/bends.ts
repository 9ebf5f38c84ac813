import { length } from '../../server/src/geometry/vector';
import type { Stage } from '../../server/src/inspection/job/stage';
import { bodyPoints } from './body';
import type { DamageField } from './damage';
import type { Cell } from './grid';
import { about, type Covered } from './intervals';
import type { SimulatedJob } from './job';
import type { Tally } from './tally';

/** Where a planned hold stands, and the limit that cuts are judged by. */
export const holdLimits = ['planned hold', 'h − 2u'] as const;
/** How far past the place where the metal begins to bend they may stand and be counted, mm. */
export const holdsPastMm = [0, 20] as const;

const railKinds = ['bent rail', 'twisted rail', 'yawed rail', 'bent and twisted rail'];

/** Bends are asked of rails of which the truth is plain; with the zone moved, a straight rail is displaced and turned as well. */
const isPlain = ({ controlState }: Cell): boolean =>
  controlState !== 'zone' && controlState !== 'stated zone';

/** Whether a cell has a rail that is bent and nothing else. */
export const hasBentRail = (cell: Cell): boolean => isPlain(cell) && cell.damage?.kind === 'bent rail';

/**
 * Metal bends over a length, so a bend has two true places: where the metal begins to bend, which the stated interval is about, and where
 * its straight courses before and just beyond the hinge would meet, the corner that the fit looks for.
 */
export function countBends(tally: Tally, covered: Covered, { cell, car }: SimulatedJob, stage: Stage): void {
  if (!isPlain(cell)) return;
  for (const { part, bend } of stage.parts) {
    if (part.name !== 'front-rail') continue;
    const { field } = car;
    const declared = bend.kind === 'bend';
    if (field?.yawedPart === part.id) tally.count(['bend declared', 'yawed', cell.scatterMm], declared);
    else if (field?.bend?.part === part.id) {
      const { startMm, cornerMm } = field.bend;
      const size = cell.damage!.size;
      for (const kind of ['bend', 'several', 'none', 'too-few-stations'])
        tally.count(['bent rail', size, cell.scatterMm, kind], bend.kind === kind);
      if (!declared) continue;
      covered('bend: start of the hinge', bend.startsBetweenMm, startMm);
      covered('bend: corner', bend.startsBetweenMm, cornerMm);
      covered('bend: corner, by h ± 1.96 u(h)', about(bend.atMm, bend.uncertaintyMm), cornerMm);
      const places = { 'planned hold': bend.holdToMm, 'h − 2u': bend.straightToMm };
      for (const limit of holdLimits)
        for (const pastMm of holdsPastMm)
          tally.count(['hold', limit, pastMm, cell.scatterMm], places[limit] <= startMm + pastMm);
    } else if (field === null || (railKinds.includes(cell.damage!.kind) && isUntouched(field, part.id)))
      tally.count(['bend declared', 'undamaged', cell.scatterMm], declared);
  }
}

const isUntouched = (field: DamageField, part: string): boolean =>
  bodyPoints.every((point) => point.part !== part || length(field.displacement(point, 1)) === 0);
