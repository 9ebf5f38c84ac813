import type { Node } from '../text/tree';

/** A number as a file may write it: digits, one decimal point, an exponent. What YAML also takes for a number is not meant here. */
const decimal = /^[-+]?(\d+(\.\d*)?|\.\d+)([eE][-+]?\d+)?$/;

export type WrittenNumber =
  | { readonly value: number }
  | { readonly value: null; readonly message: string; readonly suggestion?: string };

/** A node as a number, or why it is none, with what was likely meant. */
export function writtenNumber(node: Node | null): WrittenNumber {
  if (node === null) return { value: null, message: 'a number is missing here' };
  if (node.kind === 'sequence') return { value: null, message: 'a list stands where one number belongs' };
  if (node.kind === 'map') return { value: null, message: 'a map stands where one number belongs' };
  const source = node.source.trim();
  if (!node.plain) {
    const inner = writtenFrom(String(node.value));
    if (inner.value === null) return { value: null, message: `${source} is text where a number belongs` };
    return { value: null, message: `${source} is text: a number stands without quotes`, suggestion: String(node.value) };
  }
  return writtenFrom(source);
}

function writtenFrom(source: string): WrittenNumber {
  if (decimal.test(source)) {
    const value = Number(source);
    if (Number.isFinite(value)) return { value };
    return { value: null, message: `${source} is too large to be a length` };
  }
  return { value: null, ...reasonOf(source) };
}

function reasonOf(source: string): { message: string; suggestion?: string } {
  if (source === '' || source === '~' || source === 'null') return { message: 'a number is missing here' };
  if (/^[-+]?\d{1,3}(,\d{3})+\.\d+$/.test(source)) {
    const suggestion = source.replaceAll(',', '');
    return { message: `${source} has commas between thousands: write ${suggestion}`, suggestion };
  }
  if (/^[-+]?\d+,\d+$/.test(source)) {
    const suggestion = source.replace(',', '.');
    return { message: `${source} has a decimal comma: write ${suggestion}`, suggestion };
  }
  if (/^[-+]?\d[\d_]*(\.[\d_]+)?$/.test(source)) {
    const suggestion = source.replaceAll('_', '');
    return { message: `${source} has underscores: write ${suggestion}`, suggestion };
  }
  if (/^[-+]?0[xXoObB][0-9a-fA-F]+$/.test(source)) {
    const value = Number(source);
    if (Number.isNaN(value)) return { message: `${source} is not a decimal number` };
    return { message: `${source} is not a decimal number: if ${value} is meant, write that`, suggestion: String(value) };
  }
  if (/^[-+]?\.inf$/i.test(source)) return { message: `${source} is infinite: no point is there` };
  if (/^\.nan$/i.test(source)) return { message: `${source} is not a number: write unreachable for a point that could not be read` };
  if (/^\d{4}-\d\d?-\d\d?/.test(source)) return { message: `${source} is a date where a number belongs` };
  if (/^\d{1,2}:\d\d/.test(source)) return { message: `${source} is a time where a number belongs` };
  const unit = source.match(/^([-+]?\d+(?:\.\d+)?)\s*(mm|cm|m|in|inch|")$/);
  if (unit) return { message: `${source} has a unit: lengths are plain numbers in the file's unit`, suggestion: unit[1] };
  if (/^[-+]?[\dOolI]+([.,][\dOolI]+)?$/.test(source)) return { message: `${source} has a letter among its digits` };
  return { message: `${source} is not a number` };
}
