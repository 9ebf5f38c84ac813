import type { Chassis } from '../../model/chassis';
import { nameOf } from '../../model/names';
import type { Replacement } from '../../model/problem';
import { entryOf, type MapNode, offsetsOf, type Place, textOf } from '../../text/tree';
import { parseText } from '../../text/yaml/parse';
import type { Draft } from '../rule/rule';

/** A pair of distances of which one side is not there: what it says, and the fix that lists the other side alone. */
export function missingEnd({ id, place }: Chassis['missingEnds'][number], chassis: Chassis): Draft {
  const fix = oneSideFix(place, chassis);
  return {
    place,
    message: `${nameOf(id)} has no ${id.endsWith('.L') ? 'left' : 'right'} point, so this distance is known on the other side alone: give it that side too, or list one distance without \`pairs\``,
    replacements: fix === null ? [] : [fix],
  };
}

const sides = {
  straight: [
    ['L', 'L'],
    ['R', 'R'],
  ],
  crossed: [
    ['L', 'R'],
    ['R', 'L'],
  ],
} as const;

function oneSideFix(place: Place, { chain, points }: Chassis): Replacement | null {
  const { root } = parseText(chain[0].text);
  const list = entryOf(root, 'spans')?.value;
  const { start } = offsetsOf(place);
  const span = (list?.kind === 'sequence' ? list.items : []).find(
    (item): item is MapNode =>
      item.kind === 'map' &&
      item.entries.some(({ value }) => value !== null && offsetsOf(value.place).start === start),
  );
  const [from, to, pairs] = ['from', 'to', 'pairs'].map((key) => span && entryOf(span, key));
  const before = span && pairs && span.entries[span.entries.indexOf(pairs) - 1];
  // on lines of their own the keys are left to the writer
  if (!span?.flow || !from?.value || !to?.value || !pairs?.value || !before) return null;
  const [a, b] = [from.value, to.value];
  if (a.kind !== 'scalar' || b.kind !== 'scalar' || pairs.value.kind !== 'scalar') return null;
  const on = (name: string, side: string): string | null =>
    [name, `${name}.${side}`].find((id) => points.has(id)) ?? null;
  const known = sides[textOf(pairs.value) === 'crossed' ? 'crossed' : 'straight']
    .map(([first, second]) => [on(textOf(a), first), on(textOf(b), second)])
    .filter((ids) => !ids.includes(null));
  if (known.length !== 1) return null;
  const [[first, second]] = known;
  const whole = (begin: number, end: number): Place => ({ block: { start: 0 }, start: begin, end });
  const at = (value: Place): Place => whole(offsetsOf(value).start, offsetsOf(value).end);
  return {
    title: `List ${first} to ${second} alone`,
    place: at(a.place),
    text: first ?? '',
    also: [
      { place: at(b.place), text: second ?? '' },
      { place: whole(offsetsOf(before.place).end, offsetsOf(pairs.place).end), text: '' },
    ],
  };
}
