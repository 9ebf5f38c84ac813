import type { ScatterJson } from '@framewright/schemas';
import { fewestCars, type MeasuredScatter, type Scatter } from '../../inspection/cars/scatter';
import { mmPer, type Unit, unitWord } from '../../model/units';

/** What the jobs of one body tell. */
export interface BodyScatter {
  readonly path: string;
  readonly unit: Unit;
  readonly cars: number;
  /** Null for too few cars. */
  readonly measured: MeasuredScatter | null;
}

const noneText = (cars: number): string =>
  cars === 0
    ? 'no job of it has a settled stage of control points'
    : `${cars === 1 ? '1 car is' : `${cars} cars are`} too few: ${fewestCars} are needed`;

export function scatterLines(bodies: readonly BodyScatter[]): string[] {
  if (bodies.length === 0) return ['no job was found'];
  return bodies.flatMap(({ path, unit, cars, measured }) => {
    if (measured === null) return [`${path}: ${noneText(cars)}`];
    const { readings, leftOut, scatters } = measured;
    const out =
      leftOut === 0
        ? ''
        : `; ${leftOut} ${leftOut === 1 ? 'point or part is' : 'points or parts are'} off by more than scatter and left out`;
    return [
      `${path}: ${cars} cars, ${readings} readings${out}`,
      ...scatters.flatMap((each) => linesOf(each, unit)).map((line) => `  ${line}`),
    ];
  });
}

/** What a body states, in words behind its key. */
const bodyWords: Readonly<Record<Scatter['of'], string>> = {
  build: 'build (how far control points of sound cars differ from the sheet)',
  'build-elsewhere': 'build-elsewhere (how far all other points of sound cars do)',
  instrument: 'instrument',
};

function linesOf(scatter: Scatter, unit: Unit): string[] {
  const { of, name, statedMm, measured, cars } = scatter;
  const figure = (mm: number): string => (mm / mmPer[unit]).toFixed(unit === 'mm' ? 2 : 4);
  const word = name === null ? bodyWords[of] : `uncertainty of ${name}`;
  const stated = statedMm === null ? 'stated differently from job to job' : `stated ${figure(statedMm)}`;
  const on = cars === 1 ? '1 car' : `${cars} cars`;
  if (measured === null) return [`${word}: ${stated}; not told by these jobs${whyNot(scatter)} (${on})`];
  const [low, high] = measured.intervalMm.map(figure);
  const line = `${word}: ${stated}, measured ${figure(measured.mm)} ${unitWord[unit]} (${low} to ${high} at 95 %), ${on}`;
  return measured.contradicted
    ? [line, `  these jobs contradict the stated ${figure(statedMm ?? 0)} ${unitWord[unit]} (χ², 99 %)`]
    : [line];
}

const whyNot = ({ of }: Scatter): string =>
  of === 'instrument'
    ? ': hardly a point was read again with it in another stage, so what it adds is taken as stated'
    : ': too few points';

export const scatterJson = (bodies: readonly BodyScatter[]): ScatterJson => ({
  framewright: 'scatter/1',
  bodies: bodies.map(({ path, cars, measured }) => ({
    path,
    cars,
    readings: measured?.readings ?? 0,
    leftOut: measured?.leftOut ?? 0,
    none: measured === null ? noneText(cars) : null,
    scatters: (measured?.scatters ?? []).map((each) => ({
      of: each.of,
      name: each.name,
      cars: each.cars,
      stated: each.statedMm,
      measured: each.measured?.mm ?? null,
      interval: each.measured === null ? null : [each.measured.intervalMm[0], each.measured.intervalMm[1]],
      degreesOfFreedom: each.measured?.degreesOfFreedom ?? null,
      contradicted: each.measured?.contradicted ?? false,
    })),
  })),
});
