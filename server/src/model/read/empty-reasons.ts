/**
 * Reasons that tell nobody anything: words that are typed to be rid of a question, by language. Compared without capitals, accents and what
 * is no letter or digit at their ends.
 */
export const emptyReasons = {
  English:
    'ok, okay, none, no, yes, n/a, na, nil, nothing, no reason, see above, see below, as above, ditto, same, fine, good, known, reason, because, ignore, ignored, todo, tbd',
  German:
    'in ordnung, i.o., passt, gut, keine, keiner, kein, kein grund, ohne grund, nichts, entfällt, k.a., siehe oben, s.o., siehe unten, wie oben, dito, ja, nein, bekannt, egal',
  French:
    'd’accord, bon, bien, aucun, aucune, sans raison, rien, néant, sans objet, voir ci-dessus, voir plus haut, voir ci-dessous, idem, oui, non, connu',
  Spanish:
    'vale, bien, bueno, ninguno, ninguna, sin motivo, nada, no aplica, no procede, ver arriba, véase arriba, ver abajo, ídem, igual, sí, no, conocido',
} as const;

/** From its first letter or digit to its last. */
const core = (text: string): string => /[\p{L}\p{N}](?:.*[\p{L}\p{N}])?/su.exec(text)?.[0] ?? '';

const plain = (text: string): string =>
  core(
    text
      .normalize('NFD')
      .replace(/\p{M}/gu, '')
      .toLowerCase()
      .replace(/[’‘`´]/g, "'")
      .replace(/\s+/g, ' '),
  );

const listed: ReadonlySet<string> = new Set(
  Object.values(emptyReasons)
    .flatMap((words) => words.split(', '))
    .map(plain),
);

/** Three letters of a script with capitals in a row, or two of one without. */
const word = /[\p{Lu}\p{Ll}\p{Lt}]{3}|[\p{Lo}\p{Lm}]\p{M}*[\p{Lo}\p{Lm}]/u;

/** It has letters and says nothing: it stands on the list, or has no word in it. */
export const isEmptyReason = (text: string): boolean =>
  /\p{L}/u.test(text) && (listed.has(plain(text)) || !word.test(text.normalize('NFC')));
