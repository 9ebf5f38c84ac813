import { judgingVersions } from '@framewright/schemas';
import { defaultSettings, type Settings } from './settings';

/**
 * What holds where several settings files lie above a file. Rules and tables count one by one, by the nearest file that names them. What
 * guards a sign-off is the strictest that any of them asks for: a folder cannot make it easier for itself. Who is ignored each file
 * tells for itself.
 * @param nearestFirst each with what it says itself
 */
export function nestedSettings(nearestFirst: readonly Settings[]): Settings {
  if (nearestFirst.length < 2) return nearestFirst[0] ?? defaultSettings;
  const outermostFirst = nearestFirst.toReversed();
  const guarding = nearestFirst.findLast(({ decisionRule }) => decisionRule === 'guarded');
  const advising = nearestFirst.find(({ saidBy }) => saidBy.has('advise-uncertainty'));
  const shortest = strictest(outermostFirst, ({ calibrationMonths }) => calibrationMonths);
  const newest = strictest(outermostFirst, ({ signedSince }) =>
    signedSince === null ? null : -judgingVersions.indexOf(signedSince),
  );
  const saidBy = new Map(outermostFirst.flatMap((each) => [...each.saidBy]));
  for (const [key, settings] of [
    ['decision-rule', guarding],
    ['calibration-months', shortest],
    ['signed-since', newest],
  ] as const) {
    const uri = settings?.saidBy.get(key);
    if (uri !== undefined) saidBy.set(key, uri);
  }
  return {
    severities: new Map(outermostFirst.flatMap(({ severities }) => [...severities])),
    decisionRule: guarding?.decisionRule ?? 'simple',
    adviseUncertaintyMm: (advising ?? defaultSettings).adviseUncertaintyMm,
    calibrationMonths: shortest?.calibrationMonths ?? null,
    signedSince: newest?.signedSince ?? null,
    tables: new Map(outermostFirst.flatMap(({ tables }) => [...tables])),
    saidBy,
  };
}

/** The first of the settings of which none has a smaller value; undefined where none has any. */
function strictest(
  all: readonly Settings[],
  figureOf: (settings: Settings) => number | null,
): Settings | undefined {
  let found: { settings: Settings; value: number } | undefined;
  for (const settings of all) {
    const value = figureOf(settings);
    if (value !== null && (found === undefined || value < found.value)) found = { settings, value };
  }
  return found?.settings;
}
