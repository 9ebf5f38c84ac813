// What the extension's manifest promises is there: files, commands, settings, and keys that get in nobody's way.
import { existsSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { rules } from '../server/src/findings/rule-list';
import { manifest } from './manifest';

const client = path.join(import.meta.dirname, '../client');
const { contributes } = manifest;
const commands: string[] = contributes.commands.map(({ command }: { command: string }) => command);

test('at most twelve settings, each described and with a default', () => {
  const settings = Object.entries<Record<string, unknown>>(contributes.configuration.properties);
  expect(settings.length).toBeGreaterThan(0);
  expect(settings.length).toBeLessThanOrEqual(12);
  for (const [name, setting] of settings) {
    expect(name).toMatch(/^framewright\./);
    expect(String(setting.markdownDescription ?? setting.description), name).toMatch(/\.$/);
    expect(setting, name).toHaveProperty('default');
  }
});

test('the matcher of tasks reads a finding of every rule', () => {
  const pattern = new RegExp(contributes.problemPatterns[0].regexp);
  expect(rules.length).toBeGreaterThan(40);
  for (const { name } of rules)
    expect(pattern.exec(`jobs/w-1.readings.yaml:3:7: error: What is wrong. [${name}]`)?.[6]).toBe(name);
});

test('menus, keys, welcome pages and steps name only commands that there are', () => {
  const used = [
    ...Object.values<{ command: string }[]>(contributes.menus).flat(),
    ...contributes.keybindings,
  ].map(({ command }) => command);
  const texts = JSON.stringify([contributes.viewsWelcome, contributes.walkthroughs]);
  const linked = [...texts.matchAll(/command:(?:toSide:)?(framewright\.[\w.]+)/g)].map(
    ([, command]) => command,
  );
  expect(linked.length).toBeGreaterThan(4);
  const focus = contributes.views.framewright.map(({ id }: { id: string }) => `${id}.focus`);
  for (const command of [...used, ...linked]) expect([...commands, ...focus]).toContain(command);
});

test('rows of figures have nothing over them, are not wrapped, and where somebody wants that, not inside a number', () => {
  for (const language of ['[framewright-readings]', '[framewright-chassis]'])
    expect(contributes.configurationDefaults[language]).toMatchObject({
      'editor.minimap.enabled': false,
      'editor.wordWrap': 'off',
      'editor.wordWrapBreakAfterCharacters': ' \t',
    });
});

test('keys hold only in the text of our files', () => {
  for (const { when, command } of contributes.keybindings) {
    expect(when, command).toMatch(/^editorTextFocus && \(editorLangId .*framewright-/);
  }
});

test('every picture is there, and told in words', () => {
  const { steps } = contributes.walkthroughs[0];
  expect(steps).toHaveLength(5);
  for (const { media } of steps) {
    expect(existsSync(path.join(client, media.svg)), media.svg).toBe(true);
    expect(media.altText.length).toBeGreaterThan(20);
  }
  const icons = contributes.languages.flatMap(({ icon }: { icon?: object }) => Object.values(icon ?? {}));
  expect(icons).toHaveLength(4);
  for (const icon of icons) expect(existsSync(path.join(client, icon)), icon).toBe(true);
});

test('works in folders that are not trusted and in those that are on no disk', () => {
  expect(manifest.capabilities).toEqual({
    untrustedWorkspaces: { supported: true },
    virtualWorkspaces: true,
  });
});
