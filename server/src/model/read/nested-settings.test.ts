import { expect, it } from 'vitest';
import { parseText } from '../../text/yaml/parse';
import { nestedSettings } from './nested-settings';
import { settingsFrom } from './settings';

const at = (uri: string, lines: string) =>
  settingsFrom(parseText(`framewright: settings/1\n${lines}\n`), uri).settings;

const inner = 'file:///shop/jobs/.framewright.yaml';
const outer = 'file:///shop/.framewright.yaml';
const nested = (near: string, far: string) => nestedSettings([at(inner, near), at(outer, far)]);

it('rules and tables count one by one, by the nearest file that names them', () => {
  const { severities, saidBy } = nested(
    'rules: { base/weak: off }',
    'rules: { base/weak: error, base/moved: warning }',
  );
  expect(Object.fromEntries(severities)).toEqual({ 'base/weak': 'off', 'base/moved': 'warning' });
  expect([saidBy.get('base/weak'), saidBy.get('base/moved')]).toEqual([inner, outer]);
});

it.each([
  // what guards a sign-off is the strictest that any file asks for
  ['decision-rule: simple', 'decision-rule: guarded', 'guarded', outer],
  ['decision-rule: guarded', 'decision-rule: simple', 'guarded', inner],
  ['rules: {}', 'decision-rule: guarded', 'guarded', outer],
  ['decision-rule: guarded', 'decision-rule: guarded', 'guarded', outer],
  ['decision-rule: simple', 'decision-rule: simple', 'simple', inner],
])('%s inside %s: %s', (near, far, rule, by) => {
  const { decisionRule, saidBy } = nested(near, far);
  expect([decisionRule, saidBy.get('decision-rule')]).toEqual([rule, by]);
});

it.each([
  ['calibration-months: 24', 'calibration-months: 12', 12, outer],
  ['calibration-months: 6', 'calibration-months: 12', 6, inner],
  ['rules: {}', 'calibration-months: 12', 12, outer],
])('%s inside %s: %s', (near, far, months, by) => {
  const { calibrationMonths, saidBy } = nested(near, far);
  expect([calibrationMonths, saidBy.get('calibration-months')]).toEqual([months, by]);
});

it.each([
  ['signed-since: 0.1', 'signed-since: 0.2', '0.2', outer],
  ['signed-since: 0.2', 'signed-since: 0.1', '0.2', inner],
  ['rules: {}', 'signed-since: 0.2', '0.2', outer],
])('%s inside %s: %s', (near, far, since, by) => {
  const { signedSince, saidBy } = nested(near, far);
  expect([signedSince, saidBy.get('signed-since')]).toEqual([since, by]);
});

it('the instrument that is asked about is that of the nearest file that names one, be it the usual one', () => {
  expect(nested('advise-uncertainty: 0.5', 'advise-uncertainty: 0.2').adviseUncertaintyMm).toBe(0.5);
  expect(nested('rules: {}', 'advise-uncertainty: 0.2').adviseUncertaintyMm).toBe(0.2);
  expect(nestedSettings([]).adviseUncertaintyMm).toBe(0.5);
});
