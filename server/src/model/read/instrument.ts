import type { InstrumentEntry } from '@framewright/schemas';
import type { MapEntry } from '../../text/tree';
import type { Instrument } from '../job';

/** An instrument as checked, its lengths in mm. */
export function instrumentOf(
  value: InstrumentEntry,
  entry: MapEntry | undefined,
  mm: number,
): Instrument | null {
  if (entry === undefined) return null;
  const inMm = (length: number | undefined) => (length === undefined ? null : length * mm);
  return {
    name: value.name ?? null,
    serial: value.serial ?? null,
    calibrated: value.calibrated ?? null,
    uncertaintyMm: inMm(value.uncertainty),
    repeatabilityMm: inMm(value.repeatability),
    spanUncertaintyMm: inMm(value['span-uncertainty']),
    place: entry.key.place,
  };
}
