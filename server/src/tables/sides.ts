import type { Side } from '../model/names';

/**
 * How people write the side of a point. A way of writing is one line of `sideWays`, a word for a side one word of `leftWords` or
 * `rightWords`: nothing else knows them.
 */

const leftWords =
  'l|lh|lhs|left|links|li|gauche|izquierda|izq|izdo|sinistra|sinistro|sx|esquerda|esq|vänster|venstre|vasen|lewa|lewy|левый';
const rightWords =
  'r|rh|rhs|right|rechts|re|droite|derecha|der|dcho|destra|destro|dx|direita|dir|höger|højre|høyre|oikea|prawa|prawy|правый';
const centreWords = 'c|m|0|center|centre|mid|middle|mitte|milieu|centro|midden|mitten|środek';

interface SideWay {
  /** For the page: a name written so. */
  readonly example: string;
  /** Groups `stem` and `side`. */
  readonly pattern: RegExp;
}

const word = `(?<side>${leftWords}|${rightWords})`;
const way = (example: string, pattern: string): SideWay => ({ example, pattern: new RegExp(pattern, 'iu') });

/** In their order: the first that makes a known id counts. */
const sideWays: readonly SideWay[] = [
  way('rail-tip.L', `^(?<stem>.+)\\.${word}\\.?$`),
  way('rail tip (left)', `^(?<stem>.+?)\\s*[([]${word}\\.?[)\\]]$`),
  way('rail tip, left', `^(?<stem>.+?)[\\s_,:;/-]+${word}\\.?$`),
  way('left rail tip', `^${word}[\\s._,:;/-]+(?<stem>.+)$`),
  way('(L) rail tip', `^[([]${word}\\.?[)\\]][\\s_-]*(?<stem>.+)$`),
  way('12L', `^(?<stem>.*\\d)(?<side>l|r|lh|rh)$`),
  way('L12', `^(?<side>l|r|lh|rh)(?<stem>\\d.*)$`),
  way('rail tip left 2', `^(?<stem>.+?[\\s_-])${word}(?<rest>[\\s_-].+)$`),
];

const isLeft = new RegExp(`^(${leftWords})\\.?$`, 'iu');
const isRight = new RegExp(`^(${rightWords})\\.?$`, 'iu');
const isCentre = new RegExp(`^(${centreWords})\\.?$`, 'iu');

/** What a cell of a column of sides says: a side, null for none (a point of the centre), undefined where it is no word for either. */
export function sideInCell(text: string): Side | null | undefined {
  const plain = text.trim().replace(/^[([](.*)[)\]]$/u, '$1');
  if (isLeft.test(plain)) return 'L';
  if (isRight.test(plain)) return 'R';
  return plain === '' || plain === '-' || isCentre.test(plain) ? null : undefined;
}

/** A name as written, in the form of an id without a side: blanks and underscores are hyphens. */
export const stemOf = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/[\s_.,:;/()[\]-]+/gu, '-')
    .replace(/^-|-$/g, '');

/** The ids that a name may stand for, by every way of writing sides; the name without a side first. None twice. */
export function idsWritten(name: string): readonly string[] {
  const plain = name.trim().replace(/\s+/gu, ' ');
  const ids = [stemOf(plain)];
  for (const { pattern } of sideWays) {
    const groups = pattern.exec(plain)?.groups;
    if (groups === undefined) continue;
    const stem = stemOf(groups.stem + (groups.rest ?? ''));
    if (stem !== '') ids.push(`${stem}.${isLeft.test(groups.side) ? 'L' : 'R'}`);
  }
  return [...new Set(ids)].filter((id) => id !== '');
}
