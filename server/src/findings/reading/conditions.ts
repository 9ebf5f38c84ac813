import type { Inspection } from '../../inspection/job/inspect';
import type { Place } from '../../text/tree';
import type { Draft, Rule } from '../rule/rule';

export const conditions: Rule = {
  name: 'reading/conditions',
  severity: 'warning',
  since: '0.1',
  failsCheck: 'closed',
  page: {
    summary: 'A condition of the measuring differs from that of the reference dimensions.',
    why: 'A body carries its engine and stands on its wheels or on a bench. With the powertrain out or the suspension off it sits differently, by millimetres at the ends, so readings can be compared only with a reference that was taken under the same conditions. You may use any words; what both files state is compared.',
    example: 'conditions: { powertrain: out }      # the chassis file says `powertrain: in`',
    exampleIn: { place: 'head' },
    mend: 'Measure under the conditions of the sheet, or use a chassis file made for the conditions of the job; correct the word if it is only written differently.',
    source: 'Common practice in the trade.',
  },
  ofJob: ({ inspection }) => draftsOf(inspection),
};

type Words = ReadonlyMap<string, { readonly text: string; readonly place: Place }>;

function draftsOf({ job, chassis, stages }: Inspection): Draft[] {
  const differing = (stated: Words): Draft[] =>
    [...stated].flatMap(([what, { text, place }]) => {
      const reference = chassis.conditions.get(what);
      if (reference === undefined || plain(reference) === plain(text)) return [];
      return [
        {
          place,
          message: `${what}: ${text} here, but the reference dimensions were taken with ${what}: ${reference}. The body may sit differently by millimetres.`,
        },
      ];
    });
  const own = stages.flatMap(({ measure }) => (measure.conditions ? differing(measure.conditions) : []));
  const inForce = [...job.conditions].filter(
    ([what]) => stages.length === 0 || stages.some(({ measure }) => !measure.conditions?.has(what)),
  );
  return [...differing(new Map(inForce)), ...own];
}

const plain = (words: string): string => words.trim().replace(/\s+/g, ' ').toLowerCase();
