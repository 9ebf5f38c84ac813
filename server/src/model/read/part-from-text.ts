import { partSchema } from '@framewright/schemas';
import { entryOf, type MapEntry } from '../../text/tree';
import type { PartSheet } from '../chassis-sheet';
import type { Problem } from '../problem';
import { positionSigns, type SheetNumbers, signedBand } from '../sheet-axes';
import { mentionsIn } from './mentions';
import { checked } from './schema-check';
import { named } from './top-level';

const axisOf = { length: 0, width: 1, height: 2 } as const;

/** One part as written; null where nothing of it can be used. */
export function partSheet(
  name: string,
  entry: MapEntry,
  { mm, axes }: SheetNumbers,
  report: (problem: Problem) => void,
): PartSheet | null {
  const value = checked(partSchema, entry.value, entry.key.place, (problem) => report(named(problem, name)));
  if (value === null) return null;
  const heat = value.heat;
  const sided = value.sided ?? false;
  const along = axisOf[value.along ?? 'length'];
  const sign = positionSigns(axes, sided ? 'both' : 'centre', sided ? 'L' : null)[along];
  return {
    name,
    sided,
    along,
    steel: value.steel ?? null,
    straighten: value.straighten ?? null,
    section: value.section ? signedBand(sign, [value.section[0] * mm, value.section[1] * mm]) : null,
    heat:
      heat === undefined || heat === 'never'
        ? (heat ?? null)
        : {
            toCelsius: Number.parseFloat(heat.to),
            forSeconds: heat.for === undefined ? null : secondsOf(heat.for),
          },
    attached: [value.attached ?? 'welded'].flat(),
    joined: mentionsIn(entryOf(entry.value, 'joined')?.value),
    reference: value.reference ?? null,
    place: entry.key.place,
  };
}

/** `90 s` or `2 min`, s. */
export const secondsOf = (text: string): number =>
  Number.parseFloat(text) * (text.trim().endsWith('min') ? 60 : 1);
