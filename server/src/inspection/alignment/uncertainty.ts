import type { Instrument } from '../../model/job';

/** How certain a reading is, by what the file says of its instrument (server/README.md, "Symbols, units and assumptions"). */

/** Where an instrument states no uncertainty. Common practice has no figure; this is an assumption that is always reported. */
export const assumedUncertaintyMm = 1;

/** u² of the mean of n repeats: uncertainty² − repeatability² + repeatability²/n, mm². */
export function readingVariance(instrument: Instrument | null, repeats: number): number {
  const u = instrument?.uncertaintyMm ?? assumedUncertaintyMm;
  const r = Math.min(instrument?.repeatabilityMm ?? 0, u);
  return u ** 2 - r ** 2 + r ** 2 / repeats;
}

/** Standard uncertainty of one distance, mm: as stated, else two ends of one reading each. */
export const spanUncertaintyMm = (instrument: Instrument | null): number =>
  instrument?.spanUncertaintyMm ?? Math.SQRT2 * (instrument?.uncertaintyMm ?? assumedUncertaintyMm);

/** Standard deviations of a difference of two repeats that are put down to chance: √2 as in ISO 5725-6, three of them chosen. */
const chanceOfDifference = 3 * Math.SQRT2;

/** Most that repeats of a point may differ on an axis, mm. */
export const allowedSpreadMm = (instrument: Instrument | null): number =>
  chanceOfDifference *
  Math.max(instrument?.repeatabilityMm ?? 0, instrument?.uncertaintyMm ?? assumedUncertaintyMm);

/** Most that repeats of a distance may differ, mm. */
export const allowedSpanSpreadMm = (instrument: Instrument | null): number =>
  chanceOfDifference * spanUncertaintyMm(instrument);
