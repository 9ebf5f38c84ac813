import { type SeededRandom, seededRandom } from '../published/seeded-random';
import type { Splice } from './splice';

export const editKinds = [
  'a digit of a judged point',
  'a digit of a control point',
  'a new line near the top',
  'a new entry',
] as const;
export type EditKind = (typeof editKinds)[number];

type TextKind = 'yaml' | 'json';

/**
 * Edits of one kind, each somewhere else in the file.
 * @param judged ids of points that are judged, `control` of those that are aligned on
 */
export function editsOf(
  kind: EditKind,
  format: TextKind,
  ids: { judged: readonly string[]; control: readonly string[] },
  seed: number,
): (text: string) => Splice {
  const random = seededRandom(seed);
  let count = 0;
  switch (kind) {
    case 'a digit of a judged point':
      return (text) => otherTenth(text, ids.judged, format, random);
    case 'a digit of a control point':
      return (text) => otherTenth(text, ids.control, format, random);
    case 'a new line near the top':
      return (text) => {
        const start = text.indexOf('\n') + 1;
        return { start, end: start, text: format === 'yaml' ? `# looked at again, ${count++}\n` : '\n' };
      };
    case 'a new entry':
      return (text) => {
        const words = `washed, waiting for parts ${count++}`;
        if (format === 'yaml') return { start: text.length, end: text.length, text: `  - note: ${words}\n` };
        const start = text.lastIndexOf('\n  ]');
        return { start, end: start, text: `,\n    { "note": "${words}" }` };
      };
  }
}

/** The tenth of a millimetre of some reading of one of the points, in a measure anywhere in the file. */
function otherTenth(text: string, ids: readonly string[], format: TextKind, random: SeededRandom): Splice {
  const id = ids[Math.floor(random.uniform(0, ids.length))];
  const row = format === 'yaml' ? `\n      ${id}: [` : `"${id}": [`;
  // those of hooks and the like are not followed by figures
  const from = Math.floor(random.uniform(0, text.length));
  const found = text.indexOf(row, from);
  const at = found === -1 ? text.indexOf(row) : found;
  if (at === -1) throw new Error(`no reading of ${id}`);
  const digit = text.indexOf('.', at + row.length) + 1;
  return { start: digit, end: digit + 1, text: text[digit] === '4' ? '5' : '4' };
}

/** An edit of the newest stage, which is what a drawing shows. */
export function inNewestStage(edit: (text: string) => Splice, text: string): Splice {
  const from = text.lastIndexOf('- measure:');
  const { start, end, text: written } = edit(text.slice(from));
  return { start: start + from, end: end + from, text: written };
}

/** What no server that checks the format lets pass. */
export const spoilt =
  (format: TextKind) =>
  (text: string): Splice => {
    const start = text.indexOf('\n') + 1;
    const line = format === 'yaml' ? 'colour: red\n' : '  "colour": "red",\n';
    return { start, end: start, text: line };
  };
