import { header, pointLines } from '../layout.mjs';
import { entries as martenEntries } from './marten-hatch.mjs';
import { chassisSpanLines } from './spans.mjs';

export const path = 'specs/teal-estate.chassis.yaml';

const bolt = 'bolt';
const edge = 'edge';
const hole = 'hole';

const lines = [
  '# The rear rail is 310 longer and has three stations more.',
  { name: 'rear-rail-joint-lower', both: [-1130, 498, 333], part: 'rear-rail', fixing: hole },
  { name: 'rear-rail-joint-upper', both: [-1130, 501, 425], part: 'rear-rail', fixing: edge },
  { name: 'rear-rail-rear-lower', both: [-1320, 503, 337], part: 'rear-rail', fixing: hole },
  { name: 'rear-rail-rear-upper', both: [-1320, 506, 429], part: 'rear-rail', fixing: edge },
  { name: 'rear-rail-end-lower', both: [-1490, 506, 340], part: 'rear-rail', fixing: hole },
  { name: 'rear-rail-end-upper', both: [-1490, 509, 432], part: 'rear-rail', fixing: edge },
  { name: 'rear-rail-tip-lower', both: [-1650, 508, 343], part: 'rear-rail', fixing: bolt },
  { name: 'rear-rail-tip-upper', both: [-1650, 511, 435], part: 'rear-rail', fixing: bolt },
  '',
  { name: 'rear-panel-lower', both: [-1752, 472, 334], part: 'rear-panel', fixing: hole },
  { name: 'rear-panel-latch', centre: [-1790, 0, 592], part: 'rear-panel', fixing: bolt },
  { name: 'tailgate-hinge', both: [-1620, 421, 1424], part: 'tailgate-opening', fixing: bolt },
  { name: 'tailgate-shoulder', both: [-1702, 571, 930], part: 'tailgate-opening', fixing: edge },
  { name: 'tailgate-corner', both: [-1764, 552, 618], part: 'tailgate-opening', fixing: edge },
  { name: 'tailgate-buffer', removed: true, remark: 'the estate has none: its stops are on the tailgate' },
  '',
  '# Not on the sheet. Taken from a sound car in the yard with bench arm 2, three times each, mean of both sides.',
  {
    name: 'load-floor',
    both: [-1381.5, 402.3, 351.8],
    part: 'floor',
    fixing: hole,
    more: 'source: { kind: donor, reference: Teal in bay 4, date: 2026-01-19 }, uncertainty: 0.8',
  },
  {
    name: 'roof-rail-rear',
    both: [-1348.2, 559.6, 1441.4],
    part: 'roof',
    fixing: 'stud',
    more: 'source: { kind: donor, reference: Teal in bay 4, date: 2026-01-19 }, uncertainty: 0.8',
  },
];

const own = lines.filter((line) => typeof line !== 'string');

/** The points as data: the Marten's, with the Teal's over them, in the order in which they stand. */
export const entries = [
  ...martenEntries.map((entry) => own.find(({ name }) => name === entry.name) ?? entry),
  ...own.filter(({ name }) => !martenEntries.some((entry) => entry.name === name)),
].filter((entry) => !entry.removed);

const spans = [
  { from: 'tailgate-hinge', to: 'tailgate-corner', pairs: 'crossed' },
  { from: 'tailgate-corner.L', to: 'tailgate-corner.R' },
  { from: 'tailgate-shoulder.L', to: 'tailgate-shoulder.R' },
  { from: 'rear-rail-root-lower', to: 'rear-rail-tip-lower', pairs: 'crossed' },
];

/** The chassis file. */
export const text = () => `framewright: chassis/1
${header(
  'The Teal estate: the Marten as far back as the rear axle, with a longer tail. Only what differs stands here.',
)}extends: ./marten-hatch.chassis.yaml
vehicle: Teal estate, 2022 on
source: { kind: published, reference: body dimension sheet 7, date: 2026-01-19 }

parts:
  roof: { steel: mild, straighten: freely }
  rear-rail:                      # given anew, so every key of it stands here
    sided: true
    along: length
    steel: high-strength
    straighten: minor
    section: [-1180, -1040]
    heat: { to: 200 C, for: 90 s }
    joined: [floor, rear-panel]
    reference: body repair manual 31-53

points:
${pointLines(lines)}

spans:
${chassisSpanLines(spans, entries)}
`;
