import { expect, it } from 'vitest';
import { analysed } from '../../findings/testing/analysed';
import { twoBodies } from '../../testing/two-bodies';
import { shopOf } from '../testing/shop';
import { type Link, linksIn } from './links';

const shown = (text: string, links: Link[]): string[] =>
  links.map(
    (link) =>
      `${text.slice(link.range.start, link.range.end)} -> ${link.kind === 'file' ? link.uri : link.rule}`,
  );

it('links a job to its chassis file and a chassis file to what it extends', async () => {
  for (const [name, expected] of [
    ['jobs/w-1.readings.yaml', '../specs/hatch.chassis.yaml -> file:///shop/specs/hatch.chassis.yaml'],
    ['specs/van.chassis.yaml', './hatch.chassis.yaml -> file:///shop/specs/hatch.chassis.yaml'],
  ]) {
    const analysis = await shopOf(twoBodies).analysis(name);
    expect(shown(analysis.text, linksIn(analysis))).toEqual([expected]);
  }
});

it('links the rules that comments and settings name, where there are such rules', async () => {
  const job =
    'framewright: readings/1\n# framewright-ignore reading/coverage: one side only\n#framewright-ignore no/rule: x\ntimeline: [] # framewright-ignore reading/one-level\n';
  expect(shown(job, linksIn(await analysed({ 'w.readings.yaml': job }, 'w.readings.yaml')))).toEqual([
    'reading/coverage -> reading/coverage',
    'reading/one-level -> reading/one-level',
  ]);
  const settings = 'framewright: settings/1\nrules: { chassis/units: off, chassis/unitz: off }\n';
  expect(
    shown(settings, linksIn(await analysed({ '.framewright.yaml': settings }, '.framewright.yaml'))),
  ).toEqual(['chassis/units -> chassis/units']);
});
