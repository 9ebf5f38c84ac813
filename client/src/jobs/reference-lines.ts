import type { ReferencePointsAnswer } from '@framewright/schemas/wire';

/** What a car gives its chassis file. */
export type GivenReferences = Exclude<ReferencePointsAnswer, { readonly message: string }>;

interface ReferenceLine {
  readonly label: string;
  readonly detail?: string;
  readonly isHeading?: true;
  /** Choosing it writes the points. */
  readonly writes?: true;
}

const heading = (label: string): ReferenceLine => ({ label, isHeading: true });

/** What is said of a point, in lines of their own, stands under it as one. */
function told(lines: readonly string[]): ReferenceLine[] {
  const all: { label: string; details: string[] }[] = [];
  for (const line of lines) {
    const last = all.at(-1);
    if (line.startsWith(' ') && last) last.details.push(line.trim());
    else all.push({ label: line, details: [] });
  }
  return all.map(({ label, details }) =>
    details.length === 0 ? { label } : { label, detail: details.join('; ') },
  );
}

/**
 * The list that a person agrees to: first the writing, then each new point, each that is not given, and those that the file has.
 * @param file name of the chassis file
 */
export function referenceLines(answer: GivenReferences, file: string): ReferenceLine[] {
  const { given, said, refused, compared } = answer;
  const points = given === 1 ? '1 new point' : `${given} new points`;
  const group = (title: string, lines: readonly string[]): ReferenceLine[] =>
    lines.length === 0 ? [] : [heading(title), ...told(lines)];
  return [
    given === 0
      ? { label: `$(info) There is no new point to write into ${file}` }
      : {
          label: `$(check) Write ${points} into ${file}`,
          detail: 'Only of a car that is known to be sound there: nobody sees what was bent before it came',
          writes: true,
        },
    ...group('by this car', said),
    ...group('not given (the command line names points: framewright reference --points)', refused),
    ...group('in the file already, and left as they are', compared),
  ];
}
