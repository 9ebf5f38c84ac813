/** Copies of the sample files with something done to them that a hand, a gauge or an import may do. They know what a row is. */
import type { SeededRandom } from '../published/seeded-random';

export type Texts = Readonly<Record<string, string>>;
type Change = (text: string, random: SeededRandom) => string;

const number = String.raw`-?\d+(?:\.\d+)?`;
/** `  rail-tip-upper.L: [ 103.1, -7.0, 352.9]` of a reading or a reference. */
const row = new RegExp(String.raw`^( +[\w.-]+: *)\[ *(${number}), *(${number}), *(${number})\](.*)$`);
/** `- [floor-front.L, latch, 2010.0]`, a distance. */
const distance = new RegExp(String.raw`^( +- \[[\w.-]+, *[\w.-]+, *)(${number})(.*)$`);
const key = /^( *)(- )?[\w.-]+:/;

type Triple = readonly [number, number, number];

const pick = <T>(items: readonly T[], { uniform }: SeededRandom): T =>
  items[Math.min(items.length - 1, Math.floor(uniform(0, items.length)))];
const chance = (share: number, { uniform }: SeededRandom): boolean => uniform(0, 1) < share;
const lines = (text: string, each: (line: string, index: number) => string | readonly string[]): string =>
  text.split('\n').flatMap(each).join('\n');

/** All rows, or those of one block of rows that lie together. */
function rows(text: string, random: SeededRandom, change: (triple: Triple, index: number) => Triple): string {
  const whole = chance(0.5, random);
  const all = text.split('\n');
  const found = all.flatMap((line, i) => (row.test(line) ? [i] : []));
  if (found.length === 0) return text;
  const blocks = found.reduce<number[][]>((so, i) => {
    if (i - (so.at(-1)?.at(-1) ?? -9) > 3) so.push([]);
    so.at(-1)!.push(i);
    return so;
  }, []);
  const chosen = new Set(whole ? found : pick(blocks, random));
  return lines(text, (line, i) => {
    const parts = chosen.has(i) ? row.exec(line) : null;
    if (parts === null) return line;
    const triple = change([Number(parts[2]), Number(parts[3]), Number(parts[4])], i);
    return `${parts[1]}[${triple.map((each) => Number(each.toPrecision(12))).join(', ')}]${parts[5]}`;
  });
}

/** Each row where it lies when all else is nothing: along one axis, on one sloping line, in one plane. */
const flattened: Change = (text, random) => {
  const kept = pick<Triple>(
    [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
      [1, 1, 0],
      [1, 0, 1],
    ],
    random,
  );
  const noise = pick([0, 0, 1e-9, 0.1], random);
  const isSloping = chance(0.3, random);
  return rows(text, random, ([x, y, z]) => {
    const off = (): number => noise * random.uniform(-1, 1);
    return isSloping
      ? [x + off(), x / 3 + off(), 500 - x / 7 + off()]
      : [kept[0] * x + off(), kept[1] * y + off(), kept[2] * z + off()];
  });
};

const onePoint: Change = (text, random) => {
  const at = pick<Triple>(
    [
      [0, 0, 0],
      [1200, -300, 450],
      [0.1, 0.1, 0.1],
    ],
    random,
  );
  const noise = pick([0, 0, 0.05], random);
  return rows(
    text,
    random,
    () => at.map((each) => each + noise * random.uniform(-1, 1)) as unknown as Triple,
  );
};

const zero: Change = (text, random) =>
  lines(chance(0.7, random) ? rows(text, random, () => [0, 0, 0]) : text, (line) =>
    line.replace(distance, chance(0.5, random) ? '$10$3' : '$1$2$3'),
  );

const scaled: Change = (text, random) => {
  const factor = pick([1e-6, 0.001, 1 / 25.4, 0.1, 10, 25.4, 1000, -1], random);
  const single = chance(0.3, random) ? pick([0, 1, 2], random) : null;
  return rows(
    text,
    random,
    (triple) =>
      triple.map((each, k) => (single === null || single === k ? each * factor : each)) as unknown as Triple,
  );
};

const huge: Change = (text, random) => {
  const size = pick([1e5, 1e7, 9.9e8, 1e12, 1e150, 1e300], random);
  const share = pick([0.02, 0.2, 1], random);
  return rows(
    text,
    random,
    (triple) =>
      triple.map((each) =>
        chance(share, random) ? each + size * pick([-1, 1], random) : each,
      ) as unknown as Triple,
  );
};

const dropped: Change = (text, random) => {
  const share = pick([0.1, 0.5, 0.9, 0.97], random);
  return lines(text, (line) =>
    (row.test(line) || distance.test(line)) && chance(share, random) ? [] : [line],
  );
};

const doubled: Change = (text, random) => {
  const share = pick([0.05, 0.5], random);
  return lines(text, (line) => (row.test(line) && chance(share, random) ? [line, line] : [line]));
};

/** Repeats of one reading that agree, or do not. */
const repeated: Change = (text, random) => {
  const apart = pick([0, 0.1, 30], random);
  return lines(text, (line) =>
    line.replace(row, (whole, head, x, y, z, tail) =>
      chance(0.3, random) ? `${head}[[${x}, ${y}, ${z}], [${Number(x) + apart}, ${y}, ${z}]]${tail}` : whole,
    ),
  );
};

const otherSide: Change = (text, random) => {
  const share = pick([0.05, 0.5, 1], random);
  return lines(text, (line) =>
    row.test(line) && chance(share, random)
      ? line.replace(/\.[LR](?=:)/, (side) => (side === '.L' ? '.R' : '.L'))
      : line,
  );
};

/** A key goes, with what stands below it. */
const removedKey: Change = (text, random) => {
  const all = text.split('\n');
  const keys = all.flatMap((line, i) => (key.test(line) && !row.test(line) ? [i] : []));
  const from = pick(keys, random);
  const depth = all[from].search(/\S/);
  const below = all.findIndex((line, i) => i > from && line.trim() !== '' && line.search(/\S/) <= depth);
  return [...all.slice(0, from), ...(below < 0 ? [] : all.slice(below))].join('\n');
};

const uncertainty: Change = (text, random) =>
  text.replace(/\b((?:span-)?uncertainty|repeatability|build): *[\d.]+/g, (_, name) => {
    return `${name}: ${pick([0, 1e-12, 1e-6, 0.01, 5, 40], random)}`;
  });

const shuffled: Change = (text, random) => {
  const names = text.split('\n').flatMap((line) => row.exec(line)?.[1] ?? []);
  return lines(text, (line) =>
    line.replace(row, (whole, _, x, y, z, tail) =>
      chance(0.2, random) ? `${pick(names, random)}[${x}, ${y}, ${z}]${tail}` : whole,
    ),
  );
};

export const changes: Readonly<Record<string, Change>> = {
  flattened,
  onePoint,
  zero,
  scaled,
  huge,
  dropped,
  doubled,
  repeated,
  otherSide,
  removedKey,
  uncertainty,
  shuffled,
};

/** The file as it was when some of its measures were not yet made. */
const asEarlier: Change = (text, random) => {
  const [head, ...measures] = text.split(/^(?= {2}- measure:)/m);
  return [head, ...measures.slice(0, Math.ceil(random.uniform(0, measures.length)))].join('');
};

/** One to three things done to a file; what, so that a failure can be told. */
export function mutated(text: string, random: SeededRandom): { text: string; by: string } {
  const names = Object.keys(changes);
  const chosen = Array.from({ length: pick([1, 1, 2, 3], random) }, () => pick(names, random));
  return {
    text: chosen.reduce((so, name) => changes[name](so, random), asEarlier(text, random)),
    by: chosen.join(', '),
  };
}
