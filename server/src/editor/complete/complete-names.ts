import { axes, type Chassis, type Part, type Point } from '../../model/chassis';
import { nameOf } from '../../model/names';
import { plainOrQuoted } from '../../text/edits';
import type { Analysis } from '../../workspace/workspace';
import { shownPosition } from '../hover/hover-point';
import { type Completion, inPlace } from './completion-item';
import type { CursorContext } from './cursor-context';

/** What a name at a path may be. `either`: bare where both sides are meant, too. */
type Meant =
  | { readonly what: 'point' | 'part'; readonly form: 'id' | 'either' | 'name' }
  | { readonly what: 'control-point'; readonly form: 'id' };

const id = { what: 'point', form: 'id' } as const;
const part = { what: 'part', form: 'id' } as const;
const parts = { what: 'part', form: 'either' } as const;

const meantAt: Record<string, Meant> = {
  'readings/base/-': { what: 'control-point', form: 'id' },
  'readings/anchors/-': { what: 'point', form: 'either' },
  'readings/scope/-': parts,
  'readings/sign-off/accepted/-/point': id,
  'readings/timeline/-/part': part,
  'readings/timeline/-/section': part,
  'readings/timeline/-/replace': part,
  'readings/timeline/-/heat': part,
  'readings/timeline/-/join': parts,
  'readings/timeline/-/join/-': parts,
  'readings/timeline/-/to/-': parts,
  'readings/timeline/-/relieve': parts,
  'readings/timeline/-/relieve/-': parts,
  'readings/timeline/-/release': parts,
  'readings/timeline/-/release/-': parts,
  'readings/timeline/-/hook': id,
  'readings/timeline/-/chains/-/hook': id,
  'readings/timeline/-/hold': { what: 'point', form: 'either' },
  'readings/timeline/-/hold/-': { what: 'point', form: 'either' },
  'readings/timeline/-/hold/part': parts,
  'readings/timeline/-/hold/-/part': parts,
  'readings/timeline/-/spans/-/-': id,
  'chassis/spans/-/from': { what: 'point', form: 'either' },
  'chassis/spans/-/to': { what: 'point', form: 'either' },
};

/** Points and parts where one is to be named. */
export function nameCompletions(analysis: Analysis, context: CursorContext): Completion[] {
  if (analysis.kind === 'settings') return [];
  const { chassis } = analysis;
  const { path, role, index, beginsItem, item } = context;
  if (chassis === null || (role === 'key' && !beginsItem)) return [];
  const place = `${analysis.kind}/${path.join('/')}`;
  const meant = /^chassis\/points\/[^/]+\/part$/.test(place)
    ? ({ what: 'part', form: 'name' } as const)
    : meantAt[place];
  if (meant === undefined) return [];
  if (path.at(-3) === 'spans' && (index ?? 0) > 1) return [];
  const all =
    item !== null && /\/re(lieve|lease)$/.test(place)
      ? [inPlace(context, { label: 'all', kind: 'word', text: 'all', detail: 'everything under tension' })]
      : [];
  // what a list has already is not offered again
  const had = new Set(index === null ? [] : context.siblings);
  const names = namesOf(chassis, meant).filter(({ name }) => !had.has(name));
  return [...all, ...names.map((each) => named(chassis, context, each))];
}

type Meaning = { readonly kind: 'point'; readonly of: Point } | { readonly kind: 'part'; readonly of: Part };
type Name = Meaning & { readonly name: string };

function namesOf(chassis: Chassis, { what, form }: Meant): Name[] {
  const all: readonly Meaning[] =
    what === 'part'
      ? [...chassis.parts.values()].map((of) => ({ kind: 'part', of }))
      : [...chassis.points.values()]
          .filter(({ base }) => what === 'point' || base)
          .map((of) => ({ kind: 'point', of }));
  const names = new Map<string, Name>();
  for (const meaning of all) {
    const { of } = meaning;
    const forms = form === 'id' ? [of.id] : form === 'name' ? [of.name] : [of.name, of.id];
    for (const name of forms) if (!names.has(name)) names.set(name, { ...meaning, name });
  }
  return [...names.values()];
}

function named(chassis: Chassis, context: CursorContext, meant: Name): Completion {
  const { kind, name, of } = meant;
  const both = of.side !== null && nameOf(name) === name;
  const detail = meant.kind === 'point' ? pointDetail(meant.of, chassis) : partDetail(meant.of);
  const text = plainOrQuoted(name, 'flow');
  return inPlace(context, {
    label: name,
    kind,
    text,
    detail: both ? 'both sides' : detail,
    subject: { kind, name },
  });
}

/** `3012, 448, 210 · front-rail.L`: where the sheet has it, in the signs of the file. */
export function pointDetail(point: Point, { unit }: Chassis): string {
  const position = axes.map((k) => shownPosition(k, point.reference[k], point, unit)).join(', ');
  return [
    `[${position}]`,
    ...(point.part === null ? [] : [point.part]),
    ...(point.base ? ['control point'] : []),
  ].join(' · ');
}

const partDetail = ({ steel, straighten }: Part): string =>
  [
    steel ?? 'steel not recorded',
    straighten === null ? 'straightening not recorded' : `straighten: ${straighten}`,
  ].join(' · ');
