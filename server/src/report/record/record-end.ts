import { ruleNamed, rules } from '../../findings/rule-list';
import { grouped } from '../../inspection/alignment/grouped';
import { spanName } from '../../inspection/gate/current-spans';
import { unmeasuredWords } from '../../inspection/gate/sign-off';
import type { Undecided } from '../../inspection/gate/undecided';
import { pointsInScope } from '../../inspection/job/scope';
import { fileName } from '../../model/file-name';
import { linesOf } from '../../text/lines';
import { type Markup, markup, quoted, shortened } from '../markup';
import { list, message, plural, type RecordContext, section, table, written } from './record-input';
import { namesMarkup } from './record-standing';

/** What nobody can say anything about, because it was not measured. */
export function unmeasuredSection({ inspection, chassis, state }: RecordContext): Markup {
  if (state.heldBack)
    return section(
      'unmeasured',
      'What was not measured',
      markup`<p>Not judged until the errors in the files are corrected.</p>`,
    );
  const inScope = new Set(pointsInScope(inspection));
  const read = new Set(inspection.stages.flatMap(({ points }) => points.map(({ id }) => id)));
  const beyond = [...chassis.points.keys()].filter((id) => !inScope.has(id) && !read.has(id));
  const tension = state.tension.map((id) => (id === '' ? 'a pull of no named part' : id));
  const parts = state.partsWithoutPoints.map((id) => (id === '' ? 'nothing at all is to be judged' : id));
  return section(
    'unmeasured',
    'What was not measured',
    state.unmeasured.length === 0
      ? state.tension.length > 0
        ? null
        : markup`<p>Every point to be judged was read off load after the last work on its part.</p>`
      : table(
          'unmeasured',
          ['Why nothing is known', 'Points', 'Last read in'],
          [
            ...grouped(
              state.unmeasured,
              ({ why, stage }) => `${why} ${stage === null ? '' : inspection.stages.indexOf(stage)}`,
            ),
          ].map(([, group]) => [
            `${unmeasuredWords[group[0].why]} (${group.length})`,
            namesMarkup(group.map(({ id }) => id)),
            group[0].stage === null ? '–' : quoted(shortened(group[0].stage.name, 60)),
          ]),
        ),
    tension.length === 0 ? null : markup`<p>Still under load at the end: ${quoted(tension.join(', '))}.</p>`,
    parts.length === 0
      ? null
      : markup`<p>To be judged, but without points in the reference data: ${quoted(parts.join(', '))}.</p>`,
    beyond.length === 0
      ? null
      : markup`<p>Not among what was to be judged, and never read: ${namesMarkup(beyond)}.</p>`,
  );
}

const undecidedWords: Record<Undecided['why'], string> = {
  provisional: 'its stage is provisional',
  carried: 'the alignment of its stage was taken over, and nothing confirms it',
  unjudged: 'it could not be judged on every axis',
  repeats: 'its repeats contradict each other',
  'beyond-limit': 'read beyond its limit, though not for certain',
  'weak-base': 'inside its limit, but the control points hold it too loosely there',
  guarded: 'inside its limit, though not for certain',
  'inside-limit': 'inside its limit, though not for certain; passes under the decision rule',
};

const against = (blocks: boolean, reason: string | null): Markup | string =>
  reason !== null ? markup`accepted: ${quoted(reason)}` : blocks ? 'yes' : 'no, listed only';

/** Everything that was let pass, with the reason that was given. */
export function acceptedSection(context: RecordContext): Markup {
  const { findings, text: whole, job, state } = context;
  const ignored = findings.filter((finding) => finding.ignored !== null);
  const lines = linesOf(whole);
  const accepted = job.signOff?.accepted ?? [];
  return section(
    'accepted',
    'Ignored, accepted, undecided',
    ignored.length === 0
      ? markup`<p>No finding was ignored.</p>`
      : markup`<h3>Findings ignored by a comment in the file</h3>${table(
          'ignored',
          ['Line', 'Rule', 'What it says', 'Reason given'],
          ignored.map(({ rule, message: text, ignored: reason, range }) => [
            lines.positionAt(range.start).line + 1,
            rule,
            message(text),
            quoted(reason ?? ''),
          ]),
        )}`,
    settingsText(context),
    accepted.length === 0
      ? markup`<p>No point was accepted by the sign-off.</p>`
      : markup`<h3>Points accepted by the sign-off</h3>${table(
          'accepted',
          ['Point', 'Reason given'],
          accepted.map(({ point, reason }) => [quoted(point.id), written(reason, 'none: it does not count')]),
        )}`,
    state.undecided.length === 0
      ? markup`<p>No point to be judged is undecided.</p>`
      : markup`<h3>Undecided points</h3>${table(
          'undecided',
          ['Point', 'Why', 'Against a sign-off'],
          state.undecided.map(({ newest, why, blocks, accepted: reason }) => [
            quoted(newest.judged.id),
            undecidedWords[why],
            against(blocks, reason),
          ]),
        )}`,
    state.spansUndecided.length === 0
      ? null
      : markup`<h3>Undecided distances</h3>${table(
          'undecided',
          ['Distance', 'Why', 'Against a sign-off'],
          state.spansUndecided.map(({ span, why, blocks, accepted: reason }) => [
            quoted(spanName(span)),
            undecidedWords[why],
            against(blocks, reason),
          ]),
        )}`,
  );
}

/** Rules that do not speak as they would by themselves; null where all do. */
function settingsText(context: RecordContext): Markup | null {
  const { severities } = context.settings;
  const changed = rules
    .filter(({ name, severity, unchangeable }) => {
      const chosen = unchangeable ? undefined : severities.get(name);
      return chosen !== undefined && chosen !== severity;
    })
    .map(({ name }) => ({ text: `${name}: ${severities.get(name)}`, from: chosenIn(context, name) }))
    .sort((a, b) => (a.text < b.text ? -1 : 1));
  return changed.length === 0
    ? null
    : markup`<p>Rules that the settings switch off or give another severity: ${changed.map(
        ({ text, from }, i) =>
          markup`${i === 0 ? '' : ', '}${text}${from === null ? null : markup` (${from})`}`,
      )}.</p>`;
}

/** What was said of the files and is not in the tables of points. */
export function findingsSection({ findings, text: whole }: RecordContext): Markup {
  const lines = linesOf(whole);
  const told = findings.filter(
    ({ severity, ignored, rule }) =>
      severity !== 'information' && ignored === null && ruleNamed(rule)?.inRecord === undefined,
  );
  return section(
    'findings',
    'What else was found',
    told.length === 0
      ? markup`<p>No errors or warnings besides what stands above.</p>`
      : table(
          'findings',
          ['Line', 'Rule', 'What it says'],
          told.map(({ rule, message: text, range }) => [
            lines.positionAt(range.start).line + 1,
            rule,
            message(text),
          ]),
        ),
  );
}

const depthOf = (uri: string): number => uri.split('/').length;

/** Which settings file, all of which lie above the job, has the say in a choice; null where it is nobody's. */
function chosenIn({ uri, settings }: RecordContext, key: string): Markup | null {
  const by = settings.saidBy.get(key);
  return by === undefined ? null : quoted(`${'../'.repeat(depthOf(uri) - depthOf(by))}${fileName(by)}`);
}

export function ruleSection(context: RecordContext): Markup {
  const { state } = context;
  const from = chosenIn(context, 'decision-rule');
  const passes =
    state.rule === 'simple'
      ? 'The rule of this record is simple: a point passes when its deviation lies inside its limits. Where it is inside but not for certain it is called undecided, passes and is listed.'
      : 'The rule of this record is guarded: a point passes only when it is within for certain. One that is inside its limits, but not for certain, does not pass.';
  return section(
    'rule',
    'How it was decided',
    markup`<p>Each point is compared with its reference on length, width and height. How certain a reading is, and how certain the control points place it, both count. A point is <b>within</b> when it lies inside its limits with a chance of at least 95 % on each axis; <b>outside</b> when on some axis it is past its limit and the chance that it is inside is 5 % at most; <b>unjudged</b> when some axis cannot be known; else <b>undecided</b> (after JCGM 106:2012).</p>`,
    from === null ? null : markup`<p>The rule is chosen in ${from}.</p>`,
    markup`<p>${passes} What counts is the newest reading of a point that was not under load, and only if it is newer than the last work on its part. (Decision rules in the sense of ISO 14253-1.)</p>`,
  );
}

export function cautionsSection({ state }: RecordContext): Markup {
  return section(
    'cautions',
    'Cautions',
    list([
      'This record covers dimensions only: not welds, corrosion protection, wheel alignment, restraints, calibrations, or damage inside the metal.',
      'The maker’s procedure overrides everything here, for pulling, heat, cutting and joining, airbags and belts, high voltage, and the release of the car.',
      'The reference data are used as they are; the content hash above shows their revision. Another revision needs another record.',
      'A faulty instrument is noticed only where its readings contradict each other. Whether it was checked is not known here.',
      'Arrows in the drawings are magnified by the factor that stands beside them. Outlines join measured points; the metal between them was not measured.',
      ...(state.chassisChanged
        ? ['The reference data are no longer those that the sign-off was given against.']
        : []),
      ...(state.procedure.length > 0
        ? [
            `${plural(state.procedure.length, 'step')} of the work went against what the reference data record of the maker’s procedure.`,
          ]
        : []),
    ]),
  );
}

export function signaturesSection({ job }: RecordContext): Markup {
  const row = (what: string, name: Markup | null, date: Markup | null) =>
    markup`<tr><th scope="row">${what}</th><td>${name}</td><td>${date}</td><td></td></tr>`;
  const { signOff } = job;
  return section(
    'signatures',
    'Signatures',
    markup`<table class="signatures"><thead><tr><th scope="col">For dimensions only</th><th scope="col">Name</th><th scope="col">Date</th><th scope="col">Signature</th></tr></thead><tbody>${row('Measured', job.technician === null ? null : quoted(job.technician), null)}${row('Checked and released', signOff?.by ? quoted(signOff.by) : null, signOff?.date ? quoted(signOff.date) : null)}${row('Received', null, null)}</tbody></table>`,
  );
}
