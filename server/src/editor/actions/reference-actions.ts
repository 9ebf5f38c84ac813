import type { TextRange } from '../../findings/rule/finding';
import { carRead } from '../../inspection/cars/car';
import { carName } from '../../inspection/cars/references';
import { readBeforeWork } from '../../inspection/cars/sound-stages';
import type { Chassis } from '../../model/chassis';
import { hasNumbers } from '../../model/job';
import { type ReferencesMade, referencesInto } from '../../tables/reference-import';
import { parseText } from '../../text/yaml/parse';
import { carLines } from '../../wording/car-words';
import type { JobAnalysis } from '../../workspace/workspace';
import { onFirstLine, overlaps } from '../places';
import type { Action } from './code-action';

/** What the car of a job gives the file that it was measured on, or in words why nothing. */
type JobReferences =
  | { readonly message: string }
  | {
      readonly file: Chassis['chain'][number];
      readonly made: ReferencesMade;
      /** What is to be known of the car. */
      readonly told: readonly string[];
    };

/** Reference points by the car of one job, for the file that it names: only what that file has not is written. */
export function jobReferences({ inspection, job }: JobAnalysis): JobReferences {
  if (inspection === null) return { message: 'its chassis file cannot be read, so it is not aligned' };
  const car = carRead(inspection);
  if (car.kind === 'refused') return { message: car.reason };
  const donor = { name: carName(job), car };
  const { chassis } = inspection;
  const [file] = chassis.chain;
  const body = { tree: parseText(file.text), chassis };
  const made = referencesInto(body, [donor], { names: null, replace: false });
  return { file, made, told: carLines(donor) };
}

/**
 * *Make reference points of this job*: rows of the chassis file for what this car has and the file has not. On a measure of the car as it came, and on
 * a row whose point is not known. Not offered for a car that gives none: what stands against it is a finding there.
 */
export function referenceActions(analysis: JobAnalysis, range: TextRange): Action[] {
  const { inspection, text } = analysis;
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
  const references = jobReferences(analysis);
  if ('message' in references || references.made.text === null) return [];
  const { file, made, told } = references;
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
        told: [...told, ...made.said, ...made.refused].join('; '),
      },
      preferred: false,
      mends: null,
    },
  ];
}
