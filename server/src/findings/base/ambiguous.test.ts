import { describe, expect, it } from 'vitest';
import { carChassis, filesOf, jobOn, measured } from '../../testing/car';
import { analysed } from '../testing/analysed';
import { found, silent } from '../testing/kit';

const rule = 'base/ambiguous';
/** Three more control points at the rear, so that the front three and the rear three may each be a body. */
const chassis = carChassis.replace(
  '  latch:',
  '  rear-floor: { both: [-1050, 388, 296], base: true }\n  latch:',
);

/** The front of the car 12 mm to the left and 5 mm up of where the rear would have it. */
const bent = (mark: string) => `  - measure: as received
${mark}    readings:
      floor-front.L: [1200, 432, 100]
      floor-front.R: [1200, -408, 100]
      cowl-hole.L: [1480, 624, 910]
      floor-rear.L: [-350, 455, 90]
      floor-rear.R: [-350, -455, 90]
      rear-floor.L: [-1050, 388, 296]
      rail-tip-lower.L: [3012, 460, 215]`;

describe(rule, () => {
  it('tells both stories, with what to write for each', async () => {
    await found(
      rule,
      filesOf(
        jobOn(
          bent(
            '#   ^^^^^^^ error: base/ambiguous if the front was hit write `base: { between: [-1060, -340] }`\n',
          ),
        ),
        chassis,
      ),
    );
    await found(
      rule,
      filesOf(
        jobOn(
          bent(
            '#   ^^^^^^^ error: base/ambiguous if the rear was hit write `base: { between: [1190, 1490] }`\n',
          ),
        ),
        chassis,
      ),
    );
    await found(
      rule,
      filesOf(jobOn(bent('#   ^^^^^^^ error: base/ambiguous it would show which is true\n')), chassis),
    );
  });

  it('is decided by a zone, and then is silent', async () => {
    await silent(rule, filesOf(jobOn(bent(''), 'base: { between: [-1060, -340] }'), chassis));
    await silent(rule, filesOf(jobOn(bent(''), 'base: { between: [1190, 1490] }'), chassis));
  });

  it('makes the stage provisional: its findings say so, and none tells to move a point', async () => {
    const { findings } = await analysed(filesOf(jobOn(bent('')), chassis), 'w.readings.yaml');
    const messages = findings.filter((each) => each.rule === 'reading/outside').map((each) => each.message);
    expect(messages.length).toBeGreaterThan(2);
    for (const message of messages) {
      expect(message).toContain('Provisional: the control points tell more than one story.');
      expect(message).not.toContain('Move it');
    }
  });

  it('cannot be silenced', () =>
    found(
      rule,
      filesOf(
        jobOn(
          bent('#   ^^^^^^^ error: base/ambiguous the control points tell\n').replace(
            'received',
            'received # framewright-ignore base/ambiguous: no',
          ),
        ),
        chassis,
      ),
    ));

  it('is silent about a sound base', () => silent(rule, filesOf(jobOn(measured('')), chassis)));
});
