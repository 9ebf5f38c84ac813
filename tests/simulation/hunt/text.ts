import type { Mat3, Vec3 } from '../../../server/src/geometry/vector';
import type { HuntBody } from './body';
import type { Chance } from './chance';
import type { Shift } from './damage';
import type { Traits } from './job';

/** Jobs as their two texts, the way a person would hand them in. */

const inUnit = (mm: number, unit: Traits['unit']): string =>
  unit === 'mm' ? mm.toFixed(2) : (mm / 25.4).toFixed(5);
const triple = (v: Vec3, unit: Traits['unit']): string => `[${v.map((mm) => inUnit(mm, unit)).join(', ')}]`;

export function chassisText({ parts, points }: HuntBody, { unit, toleranceMm }: Traits): string {
  const written = new Set<string>();
  const rows = points.flatMap(({ id, name, reference: [x, y, z], part, base }) => {
    if (written.has(name)) return [];
    written.add(name);
    const place = `${id === name ? 'centre' : 'both'}: ${triple([x, Math.abs(y), z], unit)}`;
    return [`  ${name}: { ${place}, part: ${part}${base ? ', base: true' : ''} }`];
  });
  return [
    'framewright: chassis/1',
    'vehicle: Teal estate',
    `units: ${unit}`,
    `build: ${inUnit(0.5, unit)}`,
    `tolerance: ${inUnit(toleranceMm, unit)}`,
    'parts:',
    ...parts.map(
      ({ name, sided }) => `  ${name}: {${sided ? ' sided: true,' : ''} steel: mild, straighten: freely }`,
    ),
    'points:',
    ...rows,
    '',
  ].join('\n');
}

/** The head from its third line on, and one measure of all points in a frame of the instrument's own. */
export function readingsText(body: HuntBody, traits: Traits, stands: Shift, chance: Chance): string {
  const { unit, uncertaintyMm, frame, scopeStated } = traits;
  const rotation = anyTurn(chance);
  const origin: Vec3 = [
    chance.between(-3000, 3000),
    chance.between(-3000, 3000),
    chance.between(-3000, 3000),
  ];
  const rows = body.points.map((point) => {
    const at = stands(point);
    const metal: Vec3 = [0, 1, 2].map((k) => point.reference[k] + at[k]) as unknown as Vec3;
    const [x, y, z] = [0, 1, 2].map(
      (k) =>
        rotation[k][0] * metal[0] +
        rotation[k][1] * metal[1] +
        rotation[k][2] * metal[2] +
        origin[k] +
        chance.normal(uncertaintyMm),
    );
    return `      ${point.id}: ${triple([x, frame === 'mirrored' ? -y : y, z], unit)}`;
  });
  return [
    'order: H-1',
    `units: ${unit}`,
    `instrument: { name: bench arm, uncertainty: ${inUnit(uncertaintyMm, unit)} }`,
    ...(scopeStated ? [`scope: [${body.scope.map(({ name }) => name).join(', ')}]`] : []),
    'timeline:',
    '  - measure: as received',
    '    readings:',
    ...rows,
    '',
  ].join('\n');
}

/** Three turns in a row, about the three axes. */
function anyTurn(chance: Chance): Mat3 {
  const [a, b, c] = [0, 1, 2].map(() => chance.between(-Math.PI, Math.PI));
  const [ca, sa, cb, sb, cc, sc] = [
    Math.cos(a),
    Math.sin(a),
    Math.cos(b),
    Math.sin(b),
    Math.cos(c),
    Math.sin(c),
  ];
  return [
    [ca * cb, ca * sb * sc - sa * cc, ca * sb * cc + sa * sc],
    [sa * cb, sa * sb * sc + ca * cc, sa * sb * cc - ca * sc],
    [-sb, cb * sc, cb * cc],
  ];
}
