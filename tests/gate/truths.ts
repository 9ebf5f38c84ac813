import { all, atTheEnd, beforeFinished, inFile, inFinished, inJob, row, type Truth } from './attack';
import { jobPath, settingsPath } from './shop';

/** Cars that must not be signed. Each is written down honestly here; the test holds that the gate refuses it. */

const lower = /\[ 1005\.4, -391\.6, {2}874\.5\], \[ 1005\.1, -391\.3, {2}875\.0\]/;
const upper = /\[ 1005\.4, -392\.9, {2}966\.1\], \[ 1005\.2, -393\.5, {2}965\.9\]/;

export const tipOutside: Truth = {
  what: 'the tip of the left rail stands 6 mm too far in',
  written: all(
    inFinished(lower, '[ 1005.4, -385.6,  874.5], [ 1005.1, -385.3,  875.0]'),
    inFinished(upper, '[ 1005.4, -386.9,  966.1], [ 1005.2, -387.5,  965.9]'),
  ),
  refusedBy: 'sign-off/outside',
};

export const hingeOutside: Truth = {
  what: 'a hinge of the tailgate stands 8 mm too low',
  written: inFinished('1019.4,  549.1, 1944.9', '1019.4,  549.1, 1936.9'),
  refusedBy: 'sign-off/outside',
};

export const cracked: Truth = {
  what: 'the right rail is cracked',
  written: beforeFinished('  - observe: crack\n    part: rear-rail.R\n    at: -900\n'),
  refusedBy: 'sign-off/open-damage',
};

export const kinked: Truth = {
  what: 'the left rail has a kink that the cut left in the car',
  written: inJob(
    '  - pull: left rear rail back',
    '  - observe: kink\n    part: rear-rail.L\n    at: -900\n  - pull: left rear rail back',
  ),
  refusedBy: 'sign-off/open-damage',
};

export const inClamps: Truth = {
  what: 'new metal stands in the clamps',
  written: inJob(
    '  - join: [rear-rail.L, rear-panel]\n    with: welded\n    to: [rear-rail.R, tailgate-opening]\n',
    '',
  ),
  refusedBy: 'sign-off/not-joined',
};

export const panelInClamps: Truth = {
  what: 'the new panel stands in the clamps',
  written: inJob('  - join: [rear-rail.L, rear-panel]\n', '  - join: [rear-rail.L]\n'),
  refusedBy: 'sign-off/not-joined',
};

export const weldedAfter: Truth = {
  what: 'new metal was welded in after the last measuring',
  written: all(
    inClamps.written,
    atTheEnd('  - join: [rear-rail.L, rear-panel]\n    to: [rear-rail.R, tailgate-opening]\n'),
  ),
  refusedBy: 'sign-off/unmeasured',
};

export const pulledAfter: Truth = {
  what: 'the rail was pulled after the last measuring',
  written: atTheEnd(
    '  - pull: a touch more\n    part: rear-rail.L\n    hold: floor-rear.L\n  - relieve: all\n  - release: all\n',
  ),
  refusedBy: 'sign-off/unmeasured',
};

export const stillPulled: Truth = {
  what: 'the rail is still under load',
  written: atTheEnd('  - pull: a touch more\n    part: rear-rail.L\n    hold: floor-rear.L\n'),
  refusedBy: 'sign-off/tension',
};

export const measuredUnderLoad: Truth = {
  what: 'the last measuring was taken under load',
  written: all(
    beforeFinished('  - pull: a touch more\n    part: rear-rail.L\n    hold: floor-rear.L\n'),
    atTheEnd('  - relieve: all\n  - release: all\n'),
  ),
  refusedBy: 'sign-off/unmeasured',
};

export const tipUnread: Truth = {
  what: 'nobody measured the tip of the rail after it was renewed',
  written: all(inFinished(row('rear-rail-tip-lower.L'), ''), inFinished(row('rear-rail-tip-upper.L'), '')),
  refusedBy: 'sign-off/unmeasured',
};

export const overheated: Truth = {
  what: 'the right rail was heated past the maker’s limit',
  written: beforeFinished('  - heat: rear-rail.R\n    to: 240 C\n    for: 60 s\n'),
  refusedBy: 'sign-off/procedure',
};

export const cutOutsideBand: Truth = {
  what: 'the rail was cut outside the maker’s band',
  written: inJob('    at: -1090\n  - replace', '    at: -1020\n  - replace'),
  refusedBy: 'sign-off/procedure',
};

export const instrumentUnknown: Truth = {
  what: 'nobody knows how well the instrument reads',
  written: inJob(/^instrument: .*$/m, 'instrument: { name: bench arm 1, uncertainty: 9 }'),
  refusedBy: 'sign-off/undecided',
};

export const signedUnmeasured: Truth = {
  what: 'on the day of the signature nothing had been measured after the work',
  written: inJob(/ {2}- measure: finished\n[\s\S]*(?=\nsign-off:)/, ''),
  refusedBy: 'sign-off/unmeasured',
};

export const certaintyAsked: Truth = {
  what: 'points are inside their limits, though not for certain, and the shop asks for certainty',
  written: all(
    inFile(settingsPath, 'decision-rule: simple', 'decision-rule: guarded'),
    inFinished('tailgate-shoulder.L:      [ 1050.0', 'tailgate-shoulder.L:      [ 1047.2'),
  ),
  refusedBy: 'sign-off/undecided',
};

const unread = (name: string) => ({
  what: `nobody read ${name} after the work`,
  refusedBy: 'sign-off/unmeasured',
});

export const shoulderUnread: Truth = {
  ...unread('the shoulder of the tailgate opening'),
  written: inJob(/^ +tailgate-shoulder\..*\n/gm, ''),
};

export const rootUnread: Truth = {
  ...unread('the root of the rail'),
  written: inFinished(/^ +rear-rail-root-lower\..*\n/gm, ''),
};

/** The new rail and panel measured once more after the welding, and of their neighbours nothing. */
export const neighboursUnread: Truth = {
  what: 'what the new metal was welded to was not measured after it',
  written: (shop) => {
    const now = inClamps.written(shop);
    const text = now[jobPath];
    const finished = text
      .slice(text.indexOf('  - measure: finished\n'), text.indexOf('\nsign-off:'))
      .replace('measure: finished', 'measure: after welding')
      .replace('2026-02-20T15:30', '2026-02-20T17:00')
      .replace(/^ +(?:rear-rail-[a-z-]+\.R|tailgate-[a-z]+\.[LR]):.*\n/gm, '')
      .replace(/ {4}spans:\n(?:.*\n?)*/, '')
      // read anew by an instrument that was moved a little: no copy
      .replaceAll(/-?\d+\.\d(?=[,\]])/g, (figure) => (Number(figure) + 0.1).toFixed(1));
    return atTheEnd(
      `  - join: [rear-rail.L, rear-panel]\n    with: welded\n    to: [rear-rail.R, tailgate-opening]\n${finished}`,
    )(now);
  },
  refusedBy: 'sign-off/unmeasured',
};
