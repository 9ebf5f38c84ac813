import { evenly, type StageDoubt } from '../alignment/displacements';
import { mapAxes } from '../alignment/points';
import type { Inspection } from '../job/inspect';
import { type PartHistory, renewedBetween } from '../job/part-history';
import { isUnsettled } from '../job/provisional';
import type { PartInspection, Stage } from '../job/stage';
import type { Station } from '../shape/stations';

/** The earlier stage that read a place last. */
export interface SeenIn {
  readonly stageName: string;
  /** The part was pulled or heated since: the place may have moved. */
  readonly workedSince: boolean;
}

/** A place along a part as it was read last. */
export interface SeenStation {
  readonly station: Station;
  readonly isOff: boolean;
  /** Null: the stage that is planned from. */
  readonly seenIn: SeenIn | null;
}

/** Straight within so many standard uncertainties: of the mean of a station, of a single point. */
const meanLimit = 2;
const pointLimit = 3;

/**
 * Every place along the part with its newest settled reading off load, lowest first: what an earlier stage read and no later one read
 * again is not forgotten, unless that metal was renewed since.
 * @param outsideIds the points of the stage that is planned from that are outside
 */
export function seenStations(
  inspection: Inspection,
  history: PartHistory,
  motion: PartInspection,
  doubt: StageDoubt,
  outsideIds: ReadonlySet<string>,
): readonly SeenStation[] {
  const { buildMm } = inspection.chassis;
  const seen = motion.stations.map(
    (station): SeenStation => ({
      station,
      isOff: isOff(station, doubt, buildMm, outsideIds),
      seenIn: null,
    }),
  );
  const read = new Set(idsOf(motion.stations));
  for (const { stage, doubt: earlierDoubt, part } of earlierReadings(inspection, motion)) {
    const outside = new Set(stage.points.filter(({ verdict }) => verdict === 'outside').map(({ id }) => id));
    const own = part.stations.filter(
      (station) =>
        !idsOf([station]).some((id) => read.has(id)) &&
        !renewedBetween(history, station.atMm, stage.index, inspection.job.timeline.length),
    );
    const workedSince = [...history.pulls, ...history.heats].some(({ index }) => index > stage.index);
    for (const station of own)
      seen.push({
        station,
        isOff: isOff(station, earlierDoubt, buildMm, outside),
        seenIn: { stageName: stage.name, workedSince },
      });
    for (const id of idsOf(part.stations)) read.add(id);
  }
  return seen.sort((a, b) => a.station.atMm - b.station.atMm);
}

const idsOf = (stations: readonly Station[]): string[] =>
  stations.flatMap(({ members }) => members.map(({ point }) => point.id));

interface EarlierReading {
  readonly stage: Stage;
  readonly doubt: StageDoubt;
  readonly part: PartInspection;
}

/** Newest first; none of a base that is not settled. */
function earlierReadings({ stages }: Inspection, motion: PartInspection): EarlierReading[] {
  const planned = stages.findIndex(({ parts }) => parts.includes(motion));
  return stages
    .slice(0, Math.max(0, planned))
    .reverse()
    .flatMap((stage) => {
      const { doubt } = stage;
      const part = stage.parts.find((each) => each.part.id === motion.part.id);
      return doubt === null || part === undefined || stage.underTension || isUnsettled(stage)
        ? []
        : [{ stage, doubt, part }];
    });
}

const isOff = (
  station: Station,
  doubt: StageDoubt,
  buildMm: number,
  outsideIds: ReadonlySet<string>,
): boolean =>
  station.members.some(({ point }) => outsideIds.has(point.id)) || !isStraight(station, doubt, buildMm);

/**
 * No farther off than readings, alignment and the scatter of a sound body explain. On all three axes: metal that was pushed along the
 * part has been worked as well, and is nothing to hold on.
 */
function isStraight(station: Station, doubt: StageDoubt, buildMm: number): boolean {
  const own = station.members.map((member) => ({
    member,
    covariance: doubt.between(evenly([member]), evenly([member])),
  }));
  return mapAxes((k) => {
    const meanU = Math.hypot(station.shiftUncertainty[k], buildMm / Math.sqrt(station.members.length));
    const points = own.every(
      ({ member, covariance }) =>
        Math.abs(member.shift[k]) <= pointLimit * Math.sqrt(covariance[k][k] + buildMm ** 2),
    );
    return points && Math.abs(station.shift[k]) <= meanLimit * meanU;
  }).every(Boolean);
}
