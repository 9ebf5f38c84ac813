import { header, pointLines } from '../layout.mjs';
import { chassisSpanLines } from './spans.mjs';

export const path = 'specs/marten-hatch.chassis.yaml';

const bolt = 'bolt';
const edge = 'edge';
const hole = 'hole';
const stud = 'stud';
const surface = 'surface';

const lines = [
  '# Control points: a job is aligned on these. Floor, cowl, sills and the rear rail root, spread over length,',
  '# width and height, so that one of them that has moved shows up against the others.',
  { name: 'floor-front', both: [1200, 420, 95], part: 'floor', base: true, fixing: hole },
  { name: 'floor-rear', both: [-350, 455, 90], part: 'floor', base: true, fixing: hole },
  { name: 'tunnel-front', both: [905, 188, 242], part: 'floor', base: true, fixing: hole },
  { name: 'rear-floor', both: [-1050, 388, 296], part: 'floor', base: true, fixing: hole },
  { name: 'cowl-hole', both: [1480, 612, 905], part: 'cowl', base: true, fixing: hole },
  { name: 'sill-hole-front', both: [1030, 702, 148], part: 'sill', base: true, fixing: hole },
  { name: 'sill-hole-rear', both: [-420, 708, 152], part: 'sill', base: true, fixing: hole },
  { name: 'rear-rail-root-lower', both: [-560, 478, 176], part: 'rear-rail', base: true, fixing: hole },
  '',
  '# Front rails: five stations, each at two levels. The lower points alone do not show a twist.',
  { name: 'rail-root-lower', both: [1760, 441, 188], part: 'front-rail', fixing: hole },
  { name: 'rail-root-upper', both: [1760, 444, 326], part: 'front-rail', fixing: edge },
  { name: 'rail-rear-lower', both: [2070, 443, 193], part: 'front-rail', fixing: hole },
  { name: 'rail-rear-upper', both: [2070, 446, 332], part: 'front-rail', fixing: edge },
  { name: 'rail-middle-lower', both: [2380, 445, 199], part: 'front-rail', fixing: hole },
  { name: 'rail-middle-upper', both: [2380, 448, 339], part: 'front-rail', fixing: edge },
  { name: 'rail-front-lower', both: [2690, 447, 205], part: 'front-rail', fixing: hole },
  { name: 'rail-front-upper', both: [2690, 450, 345], part: 'front-rail', fixing: edge },
  { name: 'rail-tip-lower', both: [3012, 448, 210], part: 'front-rail', fixing: bolt },
  { name: 'rail-tip-upper', both: [3012, 452, 352], part: 'front-rail', fixing: bolt, more: 'tolerance: 2' },
  '',
  '# Aprons and radiator support',
  { name: 'strut-top', left: [2250, 561, 830], right: [2250, 566, 830], part: 'apron', fixing: bolt },
  { name: 'strut-flange', both: [2258, 655, 742], part: 'apron', fixing: edge },
  { name: 'wing-mount-rear', both: [1850, 671, 842], part: 'apron', fixing: bolt },
  {
    name: 'wing-mount-front',
    both: [2760, 648, 768],
    part: 'apron',
    fixing: bolt,
    more: 'tolerance: { length: 3, width: [-2, 4], height: 3 }',
  },
  { name: 'latch', centre: [3050, 12, 780], part: 'radiator-support', fixing: bolt },
  { name: 'radiator-lower', both: [3030, 322, 262], part: 'radiator-support', fixing: hole },
  { name: 'radiator-upper', both: [3036, 410, 764], part: 'radiator-support', fixing: hole },
  { name: 'lamp-mount', both: [2978, 602, 690], part: 'radiator-support', fixing: bolt },
  '',
  '# Sills',
  { name: 'sill-front-lower', both: [860, 738, 122], part: 'sill', fixing: edge },
  { name: 'sill-front-upper', both: [860, 744, 214], part: 'sill', fixing: surface },
  { name: 'sill-middle-lower', both: [340, 740, 122], part: 'sill', fixing: edge },
  { name: 'sill-middle-upper', both: [340, 746, 216], part: 'sill', fixing: surface },
  { name: 'sill-rear-lower', both: [-180, 741, 124], part: 'sill', fixing: edge },
  { name: 'sill-rear-upper', both: [-180, 747, 218], part: 'sill', fixing: surface },
  '',
  '# Centre pillars: the front and rear edge at four heights',
  { name: 'pillar-foot-front', both: [385, 718, 300], part: 'centre-pillar', fixing: edge },
  { name: 'pillar-foot-rear', both: [262, 719, 300], part: 'centre-pillar', fixing: edge },
  { name: 'pillar-hinge-front', both: [368, 745, 570], part: 'centre-pillar', fixing: hole },
  { name: 'pillar-hinge-rear', both: [276, 746, 572], part: 'centre-pillar', fixing: bolt },
  { name: 'pillar-belt-front', both: [352, 741, 868], part: 'centre-pillar', fixing: hole },
  { name: 'pillar-belt-rear', both: [272, 742, 868], part: 'centre-pillar', fixing: bolt },
  { name: 'pillar-top-front', both: [331, 612, 1204], part: 'centre-pillar', fixing: edge },
  { name: 'pillar-top-rear', both: [268, 613, 1204], part: 'centre-pillar', fixing: edge },
  '',
  '# Rear rails, rear panel, tailgate opening',
  { name: 'rear-rail-root-upper', both: [-560, 481, 266], part: 'rear-rail', fixing: edge },
  { name: 'rear-rail-middle-lower', both: [-900, 492, 318], part: 'rear-rail', fixing: hole },
  { name: 'rear-rail-middle-upper', both: [-900, 495, 410], part: 'rear-rail', fixing: edge },
  { name: 'rear-rail-tip-lower', both: [-1340, 505, 336], part: 'rear-rail', fixing: bolt },
  { name: 'rear-rail-tip-upper', both: [-1340, 508, 428], part: 'rear-rail', fixing: bolt },
  { name: 'rear-panel-lower', both: [-1442, 470, 330], part: 'rear-panel', fixing: hole },
  { name: 'tailgate-hinge', both: [-1190, 402, 1386], part: 'tailgate-opening', fixing: bolt },
  { name: 'tailgate-corner', both: [-1452, 548, 612], part: 'tailgate-opening', fixing: edge },
  { name: 'tailgate-buffer', both: [-1460, 455, 600], part: 'tailgate-opening', fixing: stud },
];

/** The points as data. */
export const entries = lines.filter((line) => typeof line !== 'string');

const spans = [
  '# Front: with a tram gauge, before anything is bolted down',
  { from: 'rail-tip-lower', to: 'strut-top', pairs: 'straight' },
  { from: 'rail-tip-lower.L', to: 'strut-top.R', tolerance: 3 },
  { from: 'rail-tip-lower.R', to: 'strut-top.L', tolerance: 3 },
  { from: 'rail-tip-lower.L', to: 'rail-tip-lower.R' },
  { from: 'floor-front', to: 'rail-tip-lower', pairs: 'crossed', level: true },
  { from: 'cowl-hole.L', to: 'strut-top.R' },
  '# Door and tailgate openings: with a tape',
  { from: 'pillar-belt-front.L', to: 'pillar-belt-front.R', tolerance: 4 },
  { from: 'tailgate-hinge', to: 'tailgate-corner', pairs: 'crossed' },
  { from: 'tailgate-corner.L', to: 'tailgate-corner.R' },
];

/** The chassis file. */
export const text = () => `framewright: chassis/1
${header(
  'The Marten hatchback: one full body. Positions are [length, width, height]; width is outboard on a point',
  'that has two sides, left on a centre point.',
)}vehicle: Marten five-door hatchback, 2021 on
units: mm
source: { kind: published, reference: body dimension sheet 4, date: 2026-01-12 }
conditions: { powertrain: in, suspension: in }
datum:
  length: centre of the front floor locating holes is 1200
  height: datum plane is 122 below the sill flange
build: 0.5
tolerance: 3

# straighten, section and heat are copied from the body repair manual, whose page is the reference. Where the
# two differ, the manual is right and this file is wrong.
parts:
  floor:            { steel: mild, straighten: freely }
  cowl:             { steel: high-strength, straighten: freely }
  radiator-support: { steel: mild, straighten: freely }
  rear-panel:       { steel: mild, straighten: freely, joined: [tailgate-opening] }
  tailgate-opening: { steel: high-strength, straighten: freely }
  apron:            { sided: true, steel: high-strength, straighten: freely, joined: [cowl] }
  front-rail:
    sided: true
    along: length
    steel: ultra-high-strength
    straighten: minor             # bent yes, kinked no
    section: [2450, 2700]         # ahead of the strut, behind the crush box
    heat: never
    joined: [apron, radiator-support]
    reference: body repair manual 31-20
  sill:
    sided: true
    along: length
    steel: ultra-high-strength
    straighten: minor
    section: [-150, 760]
    heat: never
    joined: [floor, centre-pillar]
    reference: body repair manual 31-34
  centre-pillar:
    sided: true
    along: height
    steel: press-hardened
    straighten: never             # complete pillar only, no part section
    heat: never
    reference: body repair manual 31-41
  rear-rail:
    sided: true
    along: length
    steel: high-strength
    straighten: minor
    section: [-1150, -980]
    heat: { to: 200 C, for: 90 s }
    joined: [floor, rear-panel]
    reference: body repair manual 31-52

points:
${pointLines(lines)}

spans:
${chassisSpanLines(spans, entries)}
`;
