import { assumedUncertaintyMm, spanUncertaintyMm } from '../../inspection/alignment/uncertainty';
import { coverage95 } from '../../inspection/alignment/verdict';
import { chassisHash, contentHash } from '../../inspection/gate/chassis-hash';
import { pointsInScope } from '../../inspection/job/scope';
import { fileName } from '../../model/file-name';
import type { BaseSetting, Instrument } from '../../model/job';
import { defaultSheetAxes, lengthOf, type Way } from '../../model/sheet-axes';
import { lengthText, type Unit } from '../../model/units';
import { limitFigure } from '../../wording/deviation-words';
import { andText } from '../../wording/places';
import { axisNames } from '../../wording/wording';
import { type Markup, markup, quoted } from '../markup';
import { facts, plural, type RecordContext, section, written } from './record-input';

/** What the record is about: order, car, reference, instrument, rule. */
export function factsSection(context: RecordContext): Markup {
  const { job, chassis, unit, uri, text, state } = context;
  const { source } = chassis;
  return section(
    'about',
    'What was measured, with what, against what',
    facts([
      ['Order', written(job.order)],
      ['Vehicle', written(chassis.vehicle)],
      ['Technician', written(job.technician)],
      ['Job file', markup`${quoted(fileName(uri))}<br><code>${contentHash(text)}</code>`],
      [
        'Reference data',
        markup`${written(job.chassisPath)}; ${source === null ? 'source not stated' : source.kind}${source?.reference ? markup`, ${quoted(source.reference)}` : null}${source?.date ? markup`, ${quoted(source.date)}` : null}`,
      ],
      [
        'Its numbers count',
        chassis.axes.join() === defaultSheetAxes.join()
          ? null
          : `${chassis.axes.join(', ')}; places along the car are told so`,
      ],
      [
        'Revision of it',
        markup`<code>${chassisHash(chassis)}</code><br>over the text of ${chassis.chain.length === 1 ? 'the file' : `the file and ${plural(chassis.chain.length - 1, 'file')} that it extends`}`,
      ],
      [
        'Signed off against',
        job.signOff === null
          ? null
          : job.signOff.readings !== null
            ? markup`seals <code>${job.signOff.readings}</code> over what was judged: ${state.readingsChanged ? 'changed since' : 'as it was'}; <code>${job.signOff.chassis ?? 'none'}</code> over the reference data as used here: ${state.chassisChanged ? 'changed since' : 'as it was'}`
            : markup`${job.signOff.chassis === null ? 'no revision stated' : markup`<code>${job.signOff.chassis}</code>`}: ${state.chassisChanged ? 'not the revision above' : 'the revision above'}`,
      ],
      ['Limits wider than in the file it extends', widerText(context)],
      ['Measured by its maker with', conditionsText(chassis.conditions)],
      [
        'Measured here with',
        conditionsText(new Map([...job.conditions].map(([key, { text }]) => [key, text]))),
      ],
      ['Instrument', instrumentText(job.instrument, unit)],
      ['Control points', baseText(job.base, lengthOf(chassis), unit)],
      [
        'Held to the bench at',
        job.anchors.length === 0 ? 'not stated' : quoted(job.anchors.map(({ id }) => id).join(', ')),
      ],
      [
        'To be judged',
        job.scope === null
          ? 'not stated: parts worked on or read, and points of no part that were read'
          : quoted(job.scope.map(({ id }) => id).join(', ')),
      ],
      ['Lengths in', unit === 'mm' ? 'millimetres' : 'inches'],
      ['Control points of sound cars scatter by', scatterText(chassis.buildMm, unit)],
      ['All other points by', scatterText(chassis.buildElsewhereMm, unit)],
    ]),
  );
}

/** Of points to be judged or read: limits that a file allows beyond those of the first file that has the point. */
function widerText({ chassis, inspection, unit }: RecordContext): Markup | null {
  const used = new Set([
    ...pointsInScope(inspection),
    ...inspection.stages.flatMap(({ points }) => points.map(({ id }) => id)),
  ]);
  const wider = chassis.widened.filter(({ id }) => used.has(id));
  if (wider.length === 0) return null;
  return quoted(
    wider
      .map(
        ({ id, axis, now, before }) =>
          `${id} ${axisNames[axis]} ${limitFigure(axis, now, unit)} (first ${limitFigure(axis, before, unit)})`,
      )
      .join('; '),
  );
}

const scatterText = (mm: number, unit: Unit): string =>
  `${lengthText(mm, unit)} (standard; stated in the reference data or assumed)`;

const conditionsText = (conditions: ReadonlyMap<string, string>): Markup =>
  conditions.size === 0
    ? markup`not stated`
    : quoted([...conditions].map(([key, text]) => `${key} ${text}`).join(', '));

/** An instrument and how certain it is, standard and at 95 %. */
export function instrumentText(instrument: Instrument | null, unit: Unit): Markup {
  const u = instrument?.uncertaintyMm ?? null;
  const shown = (mm: number) =>
    `±${lengthText(coverage95 * mm, unit)} at 95 % (standard ${lengthText(mm, unit)})`;
  const each =
    u === null
      ? `its uncertainty is not stated: ${lengthText(assumedUncertaintyMm, unit)} standard was taken`
      : `one reading is certain to ${shown(u)} on each axis`;
  const repeats =
    instrument?.repeatabilityMm == null
      ? ''
      : `, of which repeats average out ${lengthText(instrument.repeatabilityMm, unit)}`;
  return markup`${written(instrument?.name ?? null, 'no name stated')}; ${each}${repeats}; a distance to ${shown(spanUncertaintyMm(instrument))}`;
}

function baseText(base: BaseSetting, length: Way, unit: Unit): Markup {
  switch (base.kind) {
    case 'ids':
      return markup`named by the technician and used as given: ${quoted(base.ids.map(({ id }) => id).join(', '))}`;
    case 'between':
      return markup`searched between length ${andText([base.fromMm, base.toMm], length, unit)}, the zone that the technician takes as undamaged: the largest set that agrees`;
    case 'auto':
      return markup`searched among all that were read: the largest set that agrees`;
  }
}
