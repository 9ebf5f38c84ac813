import type { Node } from '../../text/tree';
import { shortened } from './shortened';

/** A number as a file may write it: digits, one decimal point, an exponent. What YAML also takes for a number is not meant here. */
const decimal = /^[-+]?(\d+(\.\d*)?|\.\d+)([eE][-+]?\d+)?$/;

/** Past this no length of a car is meant, and squares of it would soon leave what a computer can hold. */
const largest = 1e7;

/** Whether a number that is written as one may be a length of a car. */
export const isUsable = (value: number): boolean => Math.abs(value) <= largest;

type WrittenNumber = { readonly value: number } | ({ readonly value: null } & NoNumber);

interface NoNumber {
  readonly message: string;
  /** What may have been meant, likeliest first. */
  readonly suggestions?: readonly string[];
}

/** A node as a number, or why it is none, with what was likely meant. */
export function writtenNumber(node: Node | null): WrittenNumber {
  if (node === null) return { value: null, message: 'a number is missing here' };
  if (node.kind === 'sequence') return { value: null, message: 'a list stands where one number belongs' };
  if (node.kind === 'map') return { value: null, message: 'a map stands where one number belongs' };
  const plain = plainNumber(node);
  if (plain !== null) return { value: plain };
  const source = node.source.trim();
  if (!node.plain) {
    const inner = writtenFrom(String(node.value));
    if (inner.value === null)
      return { value: null, message: `${shortened(source)} is text where a number belongs` };
    return {
      value: null,
      message: `${shortened(source)} is text: a number stands without quotes`,
      suggestions: [String(node.value).trim()],
    };
  }
  return writtenFrom(source);
}

/** The number that a node is, where YAML takes it for one and so does everybody else; else null. */
export const plainNumber = (node: Node): number | null =>
  node.kind === 'scalar' &&
  typeof node.value === 'number' &&
  node.plain &&
  isDecimal(node.source) &&
  Math.abs(node.value) <= largest
    ? node.value
    : null;

/** Of what YAML takes for a number: not `0x1F`, `0o17`, `.inf`, `.nan`. */
const isDecimal = (source: string): boolean => {
  const second = source.charCodeAt(1) | 32;
  return second !== 0x78 && second !== 0x6f && second !== 0x69 && second !== 0x6e;
};

/** A text as a number, or why it is none. */
export function writtenFrom(text: string): WrittenNumber {
  const source = text.trim();
  if (decimal.test(source)) {
    const value = Number(source);
    if (Math.abs(value) <= largest) return { value };
    return { value: null, message: `${shortened(source)} is too large a number` };
  }
  return { value: null, ...reasonOf(source) };
}

/** Writings of numbers that are not ours, and what is meant by each. */
const writings: readonly {
  readonly pattern: RegExp;
  readonly has: string;
  readonly meant: (source: string) => string[];
}[] = [
  // 1,250.5  1,250,300.5
  {
    pattern: /^[-+]?\d{1,3}(,\d{3})+\.\d+$/,
    has: 'commas between thousands',
    meant: (source) => [source.replaceAll(',', '')],
  },
  // 1.250,5
  {
    pattern: /^[-+]?\d{1,3}(\.\d{3})+,\d+$/,
    has: 'a decimal comma and points between thousands',
    meant: (source) => [source.replaceAll('.', '').replace(',', '.')],
  },
  // 1,250: thousands or decimals, only the writer knows
  {
    pattern: /^[-+]?[1-9]\d{0,2},\d{3}$/,
    has: 'a comma',
    meant: (source) => [source.replace(',', ''), source.replace(',', '.')],
  },
  { pattern: /^[-+]?\d*,\d+$/, has: 'a decimal comma', meant: (source) => [source.replace(',', '.')] },
  {
    pattern: /^[-+]?\d[\d_]*(\.[\d_]+)?$/,
    has: 'underscores',
    meant: (source) => [source.replaceAll('_', '')],
  },
  // 1 250.5  1'250.5
  {
    pattern: /^[-+]?\d{1,3}([ \u00a0\u2009\u202f'’]\d{3})+(\.\d+)?$/,
    has: 'gaps between thousands',
    meant: (source) => [source.replace(/[^-+\d.]/g, '')],
  },
  // a minus sign or dash out of a word processor; a blank behind the sign
  {
    pattern: /^[\u2212\u2013\u2010\u2011] ?\d+(\.\d+)?$/,
    has: 'a dash for a minus sign',
    meant: (source) => [`-${source.slice(1).trim()}`],
  },
  {
    pattern: /^[-+]\s+\d+(\.\d+)?$/,
    has: 'a gap behind its sign',
    meant: (source) => [source.replace(/\s+/, '')],
  },
  {
    pattern: /^[-+]?\d+(\.\d+)?\s*(mm|cm|m|in|inch|inches|")$/i,
    has: "a unit: lengths are plain numbers in the file's unit",
    meant: () => [],
  },
  {
    pattern: /^[-+]?(?=.*\d)[\dOolI]+(\.[\dOolI]+)?$/,
    has: 'a letter among its digits',
    meant: (source) => [source.replace(/[Oo]/g, '0').replace(/[lI]/g, '1')],
  },
];

function reasonOf(source: string): NoNumber {
  if (source === '' || /^(~|null)$/i.test(source)) return { message: 'a number is missing here' };
  if (/^[-+]?0[xXoObB][0-9a-fA-F]+$/.test(source)) {
    const value = Number(source);
    if (!(value <= largest)) return { message: `${shortened(source)} is not a decimal number` };
    return {
      message: `${source} is not a decimal number: if ${value} is meant, write that`,
      suggestions: [String(value)],
    };
  }
  const written = writings.find(({ pattern }) => pattern.test(source));
  if (written) {
    const suggestions = written
      .meant(source)
      .filter((meant) => decimal.test(meant) && Math.abs(Number(meant)) <= largest);
    const instead = suggestions.length > 0 ? `: write ${suggestions.join(' or ')}` : '';
    return { message: `${shortened(source)} has ${written.has}${instead}`, suggestions };
  }
  if (/^[-+]?\.inf$/i.test(source)) return { message: `${source} is infinite: no point can be there` };
  if (/^\.?nan$/i.test(source))
    return { message: `${source} is not a number: write unreachable for a point that could not be read` };
  if (/^\d{4}-\d\d?-\d\d?/.test(source))
    return { message: `${shortened(source)} is a date where a number belongs` };
  if (/^\d{1,2}:\d\d/.test(source))
    return { message: `${shortened(source)} is a time where a number belongs` };
  return { message: `${shortened(source)} is not a number` };
}
