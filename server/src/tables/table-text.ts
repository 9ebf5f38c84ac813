/** From the bytes of a file to text, or why it is none. */

/** Nothing larger is a table of measurements, bytes. */
export const largestTable = 50 * 1024 * 1024;

type TableBytes =
  | { readonly kind: 'text'; readonly text: string; readonly encoding: string }
  | { readonly kind: 'spreadsheet' }
  | { readonly kind: 'refused'; readonly message: string };

const refused = (message: string): TableBytes => ({ kind: 'refused', message });

/**
 * Encodings are told by their byte-order marks, UTF-16 without one by its zeros; what is no UTF-8 is Windows-1252 (WHATWG Encoding
 * Standard). Kinds of files are told by their first bytes, never by their names.
 */
export function tableBytes(bytes: Uint8Array): TableBytes {
  if (bytes.length > largestTable) return refused('the table is larger than 50 MB');
  if (bytes.length === 0) return refused('the file is empty');
  if (startsWith(bytes, [0x50, 0x4b, 3, 4])) return { kind: 'spreadsheet' };
  if (startsWith(bytes, [0xd0, 0xcf, 0x11, 0xe0]))
    return refused('it is a spreadsheet of the old kind, or one with a password: save it as .xlsx or as CSV');
  const encoding = encodingOf(bytes);
  const text = decodedAs(bytes, encoding) ?? decodedAs(bytes, 'windows-1252');
  if (text === null || isNoText(text)) return refused('it is no table: it holds no text');
  const read = decodedAs(bytes, encoding) === null ? 'windows-1252' : encoding;
  return { kind: 'text', text, encoding: read };
}

const startsWith = (bytes: Uint8Array, start: readonly number[]): boolean =>
  start.every((byte, i) => bytes[i] === byte);

type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

function encodingOf(bytes: Uint8Array): Encoding {
  if (startsWith(bytes, [0xff, 0xfe])) return 'utf-16le';
  if (startsWith(bytes, [0xfe, 0xff])) return 'utf-16be';
  const looked = bytes.subarray(0, 1000);
  const zeros = [0, 1].map((odd) => looked.filter((byte, i) => i % 2 === odd && byte === 0).length);
  const many = looked.length / 4;
  if (zeros[1] > many && zeros[0] === 0) return 'utf-16le';
  if (zeros[0] > many && zeros[1] === 0) return 'utf-16be';
  return 'utf-8';
}

function decodedAs(bytes: Uint8Array, encoding: Encoding): string | null {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

/** A text has line breaks and tabs, and no other control characters. */
const isNoText = (text: string): boolean => /[\x00-\x08\x0e-\x1f\ufffe\uffff]/.test(text.slice(0, 100_000));
