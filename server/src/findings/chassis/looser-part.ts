import { isOnlyBolted } from '../../inspection/timeline/worked-parts';
import { derived } from '../../memory/derived';
import type { Chassis, HeatLimit, Part } from '../../model/chassis';
import { fileName } from '../../model/file-name';
import { chassisSheet } from '../../model/read/chassis-from-text';
import { chassisFrom } from '../../model/resolve/chassis-merge';
import type { Unit } from '../../model/units';
import { parseText } from '../../text/yaml/parse';
import { fromToText } from '../../wording/places';
import { listPhrase } from '../../wording/wording';
import type { Draft, Rule } from '../rule/rule';

/** A part whose points stand farther than this from where the parent has them is another piece of metal, with a procedure of its own; mm. */
const otherMetalMm = 1;

export const looserPart: Rule = {
  name: 'chassis/looser-part',
  severity: 'warning',
  since: '0.2',
  failsCheck: 'always',
  page: {
    summary:
      'A part that is given anew allows more than in the parent file, or leaves out what the parent records.',
    why: `An entry replaces the parent's whole. A part whose \`straighten\`, \`section\`, \`heat\` or \`attached\` then allows more lets work pass that the maker's procedure, as the
parent records it, forbids; one that leaves them out is no longer checked. Told of parts whose points stand where the parent has them: a part that stands elsewhere is another piece of
metal, with a procedure of its own.`,
    example: `extends: ./marten-hatch.chassis.yaml      # front-rail: straighten minor, heat never, a band for cuts
parts:
  front-rail: { sided: true, steel: high-strength, straighten: freely }`,
    exampleIn: { place: 'chassis' },
    mend: `Write what the maker's procedure for this very car says, with the page as \`reference\`; where it is the parent's, take the entry out, or repeat all of its keys. If the
maker really allows more here, silence the finding with the page as the reason.`,
    source: "Common practice in the trade. The maker's procedure decides.",
  },
  ofChassis: ({ chassis }): Draft[] => {
    if (chassis.broken || chassis.chain.length < 2) return [];
    const own = [...chassis.parts.values()].filter(({ origin }) => origin.uri === chassis.uri);
    if (own.length === 0) return [];
    const parent = parentOf(chassis);
    const told = new Set<string>();
    return own.flatMap((part): Draft[] => {
      const before = parent.parts.get(part.id) ?? parent.parts.get(part.name);
      if (before === undefined || told.has(part.name) || isOtherMetal(before.id, parent, chassis)) return [];
      const looser = looserKeys(part, before, chassis.unit);
      if (looser.length === 0) return [];
      told.add(part.name);
      return [
        {
          place: part.origin.place,
          message: `${part.name} allows more than in ${fileName(before.origin.uri)}: ${listPhrase(looser)}. The maker’s procedure for this car decides.`,
          related: [{ ...before.origin, message: `${part.name} in the parent file` }],
        },
      ];
    });
  },
};

const parentOf = derived(({ chain }: Chassis) =>
  chassisFrom(chain.slice(1).map(({ uri, text }) => chassisSheet(uri, parseText(text)))),
);

function isOtherMetal(partId: string, parent: Chassis, { points }: Chassis): boolean {
  return [...parent.points.values()].some(({ id, part, reference }) => {
    const now = part === partId ? points.get(id)?.reference : undefined;
    return now?.some((each, k) => Math.abs(each - reference[k]) > otherMetalMm) === true;
  });
}

const freedoms = { never: 0, minor: 1, freely: 2 } as const;

/** What the part allows beyond the parent's, or no longer says. */
function looserKeys(part: Part, before: Part, unit: Unit): string[] {
  const gone = (key: 'straighten' | 'section' | 'heat'): string[] =>
    before[key] !== null && part[key] === null ? [`\`${key}\` is left out`] : [];
  const found = [...gone('straighten'), ...gone('section'), ...gone('heat')];
  if (before.straighten && part.straighten && freedoms[part.straighten] > freedoms[before.straighten])
    found.push(`\`straighten\` is ${part.straighten}, there ${before.straighten}`);
  if (before.section && part.section && isWider(part.section, before.section))
    found.push(
      `\`section\` is ${fromToText(part.section, part, unit)}, there ${fromToText(before.section, part, unit)}`,
    );
  if (before.heat && part.heat && isHotter(part.heat, before.heat))
    found.push(`\`heat\` is ${heatText(part.heat)}, there ${heatText(before.heat)}`);
  if (isOnlyBolted(part.attached) && !isOnlyBolted(before.attached))
    found.push(`\`attached\` is bolted, there ${listPhrase(before.attached)}: it would need no join`);
  return found;
}

type Band = NonNullable<Part['section']>;

const isWider = ([low, high]: Band, before: Band): boolean => low < before[0] || high > before[1];

function isHotter(heat: HeatLimit, before: HeatLimit): boolean {
  if (heat === 'never') return false;
  if (before === 'never') return true;
  const [now, then] = [heat, before].map(({ forSeconds }) => forSeconds ?? Number.POSITIVE_INFINITY);
  return heat.toCelsius > before.toCelsius || now > then;
}

const heatText = (heat: HeatLimit): string =>
  heat === 'never'
    ? heat
    : `${heat.toCelsius} °C${heat.forSeconds === null ? '' : ` for ${heat.forSeconds} s`}`;
