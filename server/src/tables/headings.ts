import type { Unit } from '../model/units';

/** What a column can hold. `first`, `second` and `third` are numbers of an instrument, whatever they count towards. */
export type ColumnMeaning =
  | 'point'
  | 'side'
  | 'length'
  | 'width'
  | 'height'
  | 'first'
  | 'second'
  | 'third'
  | 'remark'
  | 'repeat'
  | 'stage'
  | 'entry'
  | 'to'
  | 'distance'
  | 'part'
  | 'base'
  | 'fixing'
  | 'uncertainty'
  | 'tolerance'
  | 'level';

/** The headings that are understood, without unit, brackets and case: a language more is a word more in its lines. */
const headings: Readonly<Record<ColumnMeaning, string>> = {
  point:
    'id|point|points|point id|point name|point no|name|label|punkt|punktname|messpunkt|bezeichnung|point de mesure|nom|repère|punto|nombre|nome|punt|meetpunt|naam|ponto|punkt pomiarowy|mätpunkt|målepunkt',
  side: 'side|l/r|seite|côté|cote|lado|lato|zijde|kant|sida|strona',
  length: 'length|länge|laenge|longueur|longitud|largo|lunghezza|lengte|comprimento|längd|længde|długość',
  width: 'width|breite|largeur|anchura|ancho|larghezza|breedte|largura|bredd|bredde|szerokość',
  height: 'height|höhe|hoehe|hauteur|altura|alto|altezza|hoogte|höjd|højde|wysokość',
  first: 'x|reading-1|x coordinate|x-koordinate|coord x|x coord',
  second: 'y|reading-2|y coordinate|y-koordinate|coord y|y coord',
  third: 'z|reading-3|z coordinate|z-koordinate|coord z|z coord',
  remark:
    'remark|remarks|note|notes|comment|comments|bemerkung|bemerkungen|anmerkung|remarque|remarques|commentaire|nota|notas|observaciones|osservazioni|opmerking|opmerkingen|anmärkning|uwagi',
  repeat: 'repeat|repetition|wiederholung|répétition|repetición|ripetizione|herhaling|upprepning',
  stage: 'stage|measure|stufe|étape|etapa|fase|etap',
  entry: 'entry',
  to: 'to',
  distance: 'distance',
  part: 'part',
  base: 'base',
  fixing: 'fixing',
  uncertainty: 'uncertainty',
  tolerance: 'tolerance',
  level: 'level',
};

const meanings: ReadonlyMap<string, ColumnMeaning> = new Map(
  Object.entries(headings).flatMap(([meaning, words]) =>
    words.split('|').map((word): [string, ColumnMeaning] => [word, columnMeaning(meaning)]),
  ),
);

function columnMeaning(name: string): ColumnMeaning {
  const found = Object.keys(headings).find((each): each is ColumnMeaning => each === name);
  if (found === undefined) throw new RangeError(`${name} is no meaning of a column`);
  return found;
}

/** What a heading says of its column; the unit is null where it names none, and `other` where it is one that is not read. */
interface Heading {
  readonly meaning: ColumnMeaning | null;
  readonly unit: Unit | 'other' | null;
}

/** Of a text whose blanks are single ones. */
const unitEnd = /(?:[([] ?|\bin |\/ ?|, ?)?\b(mm|cm|m|inch|inches|in|") ?[)\]]?$/iu;

export function headingOf(cell: string): Heading {
  const plain = cell.trim().toLowerCase().replace(/\s+/gu, ' ');
  const whole = meanings.get(withoutEnd(plain));
  if (whole !== undefined) return { meaning: whole, unit: null };
  const unit = unitEnd.exec(plain);
  if (unit === null) return { meaning: null, unit: null };
  const meaning = meanings.get(withoutEnd(plain.slice(0, unit.index))) ?? null;
  return { meaning, unit: meaning === null ? null : unitOf(unit[1]) };
}

/** `Point:`, `No.` and `Z-` are headings too. */
function withoutEnd(text: string): string {
  let end = text.length;
  while (end > 0 && /[\s:._-]/u.test(text[end - 1])) end--;
  return text.slice(0, end);
}

const unitOf = (word: string): Unit | 'other' =>
  word === 'mm' ? 'mm' : /^(in|inch|inches|")$/.test(word) ? 'inch' : 'other';
