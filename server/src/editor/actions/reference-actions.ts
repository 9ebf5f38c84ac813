import type { TextRange } from '../../findings/rule/finding';
import { carRead } from '../../inspection/cars/car';
import { carName } from '../../inspection/cars/references';
import { readBeforeWork } from '../../inspection/cars/sound-stages';
import { hasNumbers } from '../../model/job';
import { referencesInto } from '../../tables/reference-import';
import { parseText } from '../../text/yaml/parse';
import type { JobAnalysis } from '../../workspace/workspace';
import { onFirstLine, overlaps } from '../places';
import type { Action } from './code-action';

/**
 * *Make reference points of this job*: rows of the chassis file for what this car has and the file has not. On a measure of the car as it came, and on
 * a row whose point is not known. Not offered for a car that gives none: what stands against it is a finding there.
 */
export function referenceActions({ inspection, job, text }: JobAnalysis, range: TextRange): Action[] {
  if (inspection === null) return [];
  const { chassis } = inspection;
  const isNew = ({ id }: { readonly id: string }): boolean => !chassis.points.has(id);
  const isAsked = readBeforeWork(inspection).some(({ measure }) => {
    const fresh = measure.readings.filter((reading) => hasNumbers(reading) && isNew(reading));
    return (
      fresh.length > 0 &&
      (onFirstLine(measure.keyPlace, text, range) || fresh.some(({ key }) => overlaps(key, range)))
    );
  });
  if (!isAsked) return [];
  const car = carRead(inspection);
  if (car.kind === 'refused') return [];
  const [file] = chassis.chain;
  const body = { tree: parseText(file.text), chassis };
  const made = referencesInto(body, [{ name: carName(job), car }], { names: null, replace: false });
  if (made.text === null) return [];
  const points = made.given === 1 ? '1 reference point' : `${made.given} reference points`;
  return [
    {
      title: `Make ${points} of this job`,
      kind: 'refactor.rewrite',
      edits: [],
      elsewhere: {
        uri: file.uri,
        text: file.text,
        edits: made.edits,
        told: [...made.said, ...made.refused].join('; '),
      },
      preferred: false,
      mends: null,
    },
  ];
}
