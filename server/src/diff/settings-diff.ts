import type { DiffChange } from '@framewright/schemas';
import { ignoreEntries } from '../model/read/ignore-entries';
import { defaultSettings } from '../model/read/settings';
import type { Analysis } from '../workspace/workspace';
import { chassisLines, noBody } from './chassis-lines';
import { statedChanges } from './compared';
import { changeText, counted, line } from './line';
import type { Found, Resting, Sides } from './told';
import { sameMeaning, verdictFirst } from './verdict-words';

/** What a settings file itself states; which file has the say in what is no statement of it. Null: there is none. */
function statedOf(analysis: Analysis | null): object {
  const { saidBy: _, ...stated } = analysis?.settings ?? defaultSettings;
  return { ...stated, ignore: analysis === null ? [] : ignoreEntries(analysis.text) };
}

/** What became of a settings file: which of its rules are others, and for which files they hold. */
export function settingsDiff(
  before: Analysis | null,
  after: Analysis | null,
  { path, was, status }: Pick<Sides, 'path' | 'was' | 'status'>,
  resting: Resting,
): Found {
  const settings = named(statedChanges(statedOf(before), statedOf(after)));
  const isMoved = was !== null && folderIn(was) !== folderIn(path);
  const held = isMoved ? named(statedChanges(statedOf(null), statedOf(after))) : [];
  const isSame = settings.length === 0 && !isMoved && before !== null && after !== null;
  const changed =
    settings.length === 0 ? [] : [`${counted(settings.length, 'setting')} changed: ${words(settings)}`];
  const what =
    status === 'added'
      ? [`new settings for ${folderIn(path)}: ${words(settings)}`]
      : status === 'deleted'
        ? [`settings for ${folderIn(path)} deleted, no longer said: ${words(settings)}`]
        : isMoved
          ? [
              `settings moved, they hold for ${folderIn(path)} and no longer for ${folderIn(was)}: ${words(held)}`,
              ...changed,
            ]
          : isSame
            ? ['same meaning']
            : changed;
  return {
    facts: {
      meaning: isSame && resting.touches.length === 0 ? 'same' : 'different',
      verdict: isSame && resting.touches.length === 0 ? sameMeaning(resting) : verdictFirst(what, resting),
      settings,
    },
    lines: [
      ...chassisLines(noBody, resting, 'mm'),
      ...[...settings, ...held].map((change) => line(changeText(change), change.what !== 'tables')),
    ],
  };
}

/** Where a settings file stands, for people: all below it is what it holds for. */
const folderIn = (path: string): string =>
  path.includes('/') ? path.slice(0, path.lastIndexOf('/') + 1) : 'all files';

const words = (changes: readonly DiffChange[]): string =>
  changes.length === 0 ? 'nothing' : changes.map(({ what }) => what).join(', ');

const named = (changes: readonly DiffChange[]): DiffChange[] =>
  changes.map((change) => ({ ...change, what: settingWords[change.what] ?? change.what }));

const settingWords: Readonly<Record<string, string>> = {
  severities: 'rules',
  decisionRule: 'decision-rule',
  adviseUncertaintyMm: 'advise-uncertainty',
  calibrationMonths: 'calibration-months',
  signedSince: 'signed-since',
};
