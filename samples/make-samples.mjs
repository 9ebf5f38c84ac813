// Writes the sample chassis and job files: invents a body, damages it, pulls it and reads it with a noisy instrument.
// node samples/make-samples.mjs            rewrites them
// node samples/make-samples.mjs --check    exits 1 where a file on disk is not what would be written
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { sealsOf } from '../tests/seal/seal.mjs';
import { chassisPoints } from './simulate/body.mjs';
import * as finished from './simulate/jobs/w-1174-finished.mjs';
import * as asReceived from './simulate/jobs/w-1187-as-received.mjs';
import * as twistedRail from './simulate/jobs/w-1192-twisted-rail.mjs';
import * as sideImpact from './simulate/jobs/w-1201-side-impact.mjs';
import * as movedControlPoint from './simulate/jobs/w-1205-moved-control-point.mjs';
import * as typingMistakes from './simulate/jobs/w-1210-typing-mistakes.mjs';
import * as measuringMistakes from './simulate/jobs/w-1211-measuring-mistakes.mjs';
import * as procedureMistakes from './simulate/jobs/w-1212-procedure-mistakes.mjs';
import * as tramOnly from './simulate/jobs/w-1213-tram-only.mjs';
import * as sideMoved from './simulate/jobs/w-1214-side-moved.mjs';
import * as fewControlPoints from './simulate/jobs/w-1215-few-control-points.mjs';
import * as undeclaredRear from './simulate/jobs/w-1216-undeclared-rear.mjs';
import * as fromTheNose from './simulate/jobs/w-1217-from-the-nose.mjs';
import * as usedFront from './simulate/jobs/w-1218-used-front.mjs';
import * as marten from './simulate/specs/marten-hatch.mjs';
import * as martenNose from './simulate/specs/marten-nose.mjs';
import * as teal from './simulate/specs/teal-estate.mjs';

const jobs = [
  finished,
  asReceived,
  twistedRail,
  sideImpact,
  movedControlPoint,
  typingMistakes,
  measuringMistakes,
  procedureMistakes,
  tramOnly,
  sideMoved,
  fewControlPoints,
  undeclaredRear,
  fromTheNose,
  usedFront,
];

const chassis = {
  marten: chassisPoints(marten.entries),
  martenNose: chassisPoints(martenNose.entries),
  teal: chassisPoints(teal.entries),
};

/** A sign-off says `readings: SEAL`, `chassis: SEAL` where its seals belong. */
function sealed(text, chassisTexts) {
  if (!text.includes(': SEAL')) return text;
  const seals = sealsOf(text, chassisTexts);
  return text
    .replace('readings: SEAL', `readings: ${seals.readings}`)
    .replace('chassis: SEAL', `chassis: ${seals.chassis}`);
}

const files = [
  [marten.path, marten.text()],
  [martenNose.path, martenNose.text()],
  [teal.path, teal.text()],
  ...jobs.map((job) => [job.path, sealed(job.text(chassis), [teal.text(), marten.text()])]),
];

const onDisk = (url) => {
  try {
    return readFileSync(url, 'utf8');
  } catch {
    return undefined;
  }
};

const different = files.filter(([path, text]) => onDisk(new URL(path, import.meta.url)) !== text);
if (process.argv.includes('--check')) {
  for (const [path] of different) console.error(`${path} is not what make-samples.mjs writes`);
  process.exitCode = different.length > 0 ? 1 : 0;
} else {
  for (const [path, text] of different) writeFileSync(fileURLToPath(new URL(path, import.meta.url)), text);
  console.log(`${files.length} files, ${different.length} written`);
}
