/** The fixed grid: every combination of these once, 10,000 jobs. */

export const scattersMm = [0.5, 0.8] as const;
export const uncertaintiesMm = [0.3, 0.5] as const;
export const controlCounts = [4, 6, 8, 12] as const;

/** `zone`: the whole front zone has moved and the job says nothing; `stated zone`: the job names the undamaged zone (`base: { between }`). */
export const controlStates = ['none', 'one', 'two', 'zone', 'stated zone'] as const;

/** Size of the worst damage, mm. */
export const damageSizesMm = { small: [4, 15], large: [15, 60] } as const;

export const damageKinds = [
  'mash',
  'sidesway',
  'sag',
  'high',
  'diamond',
  'twist',
  'bent rail',
  'twisted rail',
  'yawed rail',
  'bent and twisted rail',
  'mash and sidesway',
  'twist and bent rail',
] as const;
export type DamageKind = (typeof damageKinds)[number];

/** What the worst judged point truly is when the job is signed off. A sound job is fully repaired or only just inside, in turn. */
export const outcomes = ['sound', 'out by 0–1', 'out by 1–3', 'out by 3–5', 'out by > 5'] as const;
export type Outcome = (typeof outcomes)[number];

/** How a part comes back when a pull is released: by a constant amount, by a share of the move, or by both. */
export const recoveryLaws = ['constant', 'share', 'both'] as const;
export type RecoveryLaw = (typeof recoveryLaws)[number];

export interface Cell {
  readonly index: number;
  readonly scatterMm: (typeof scattersMm)[number];
  readonly uncertaintyMm: (typeof uncertaintiesMm)[number];
  readonly controlCount: (typeof controlCounts)[number];
  readonly controlState: (typeof controlStates)[number];
  /** Null: the car was not hit. */
  readonly damage: { readonly kind: DamageKind; readonly size: keyof typeof damageSizesMm } | null;
  readonly outcome: Outcome;
  /** Takes turns over the cells, as do the two below. */
  readonly recovery: RecoveryLaw;
  readonly fullyRepaired: boolean;
  /** Where the remaining damage sits: all of the field of the damage, one part of it, or one point. */
  readonly remainder: 'field' | 'part' | 'point';
}

const damages: readonly Cell['damage'][] = [
  null,
  ...damageKinds.flatMap((kind) => [{ kind, size: 'small' } as const, { kind, size: 'large' } as const]),
];

const dimensions = [
  scattersMm.length,
  uncertaintiesMm.length,
  controlCounts.length,
  controlStates.length,
  outcomes.length,
  damages.length,
];

export const gridSize = dimensions.reduce((product, size) => product * size, 1);

/** @param index 0 to gridSize − 1 */
export function cellAt(index: number): Cell {
  let rest = index;
  const [a, b, c, d, e, f] = dimensions.map((size) => {
    const digit = rest % size;
    rest = Math.floor(rest / size);
    return digit;
  });
  const turn = a + b + c + d + e + f;
  return {
    index,
    scatterMm: scattersMm[a],
    uncertaintyMm: uncertaintiesMm[b],
    controlCount: controlCounts[c],
    controlState: controlStates[d],
    outcome: outcomes[e],
    damage: damages[f],
    recovery: recoveryLaws[turn % 3],
    fullyRepaired: turn % 2 === 0,
    remainder: (['field', 'part', 'point'] as const)[(a + 2 * b + c + 2 * d + e + 2 * f) % 3],
  };
}
