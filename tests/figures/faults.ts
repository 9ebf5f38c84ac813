/** What no figure may be: none at all, or known so badly that it says nothing. */

/** An angle's and a length's uncertainty past which a figure is none, at 95 %. */
const mostDegrees = 45;
const mostMm = 1000;
const mmPerInch = 25.4;

const none = /\b(NaN|Infinity|undefined)\b|\[object /;
const doubt = /±\s?(\d+(?:\.\d+)?(?:e[+-]?\d+)?)\s?(°(?!\/m)|mm|in\b(?! (?:length|width|height))|%)?/g;

/** @param isInch a figure without a unit is in inches */
export function faultsIn(said: unknown, isInch: boolean): string[] {
  if (typeof said === 'string') return textFaults(said, isInch);
  return [...dataFaults(said, '', isInch, new Set())];
}

function textFaults(text: string, isInch: boolean): string[] {
  const faults: string[] = [];
  const found = none.exec(text);
  if (found) faults.push(around(text, found.index));
  for (const { 1: size, 2: unit, index } of text.matchAll(doubt)) {
    if (unit === '%') continue;
    const inInches = unit === 'in' || (unit === undefined && isInch);
    const isAngle = unit === '°' || headOf(text, index).includes(', °:');
    const most = isAngle ? mostDegrees : inInches ? mostMm / mmPerInch : mostMm;
    if (!(Number(size) <= most)) faults.push(around(text, index));
  }
  return faults;
}

/** The unit of a list of figures stands before the first of them: `twist, °: 82.9 ±2.2 …, 26.5 ±1.4 …; width, mm: …`. */
const headOf = (text: string, at: number): string =>
  text.slice(Math.max(text.lastIndexOf(';', at), text.lastIndexOf('>', at)) + 1, at);

const around = (text: string, at: number): string => `…${text.slice(Math.max(0, at - 80), at + 40)}…`;

const uncertainty = /uncertainty(Mm|Rad)?$/i;
const angle = /yaw|pitch|twist|Rad$/i;

function* dataFaults(said: unknown, path: string, isInch: boolean, seen: Set<unknown>): Generator<string> {
  if (typeof said === 'string') {
    for (const fault of textFaults(said, isInch)) yield `${path}: ${fault}`;
  } else if (typeof said === 'number') {
    if (!Number.isFinite(said)) yield `${path}: ${said}`;
    const name = path.split('.').findLast((each) => !/^\d*$/.test(each)) ?? '';
    if (!uncertainty.test(name)) return;
    const most = /Rad$/.test(name) ? (mostDegrees * Math.PI) / 180 : angle.test(name) ? mostDegrees : mostMm;
    if (Math.abs(said) * 1.96 > most) yield `${path}: ${said}`;
  } else if (typeof said === 'object' && said !== null && !seen.has(said)) {
    seen.add(said);
    const entries = said instanceof Map ? said.entries() : Object.entries(said);
    for (const [key, value] of entries) yield* dataFaults(value, `${path}.${String(key)}`, isInch, seen);
  }
}
