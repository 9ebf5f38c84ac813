import type { Requirement } from '../requirements';
import type { Count, Tally } from '../tally';
import { type Scenario, scattersMm, scenarios, soundScenarios } from './scenarios';

/** What must hold of bodies that moved in other ways than one end alone, at the scatter that the chassis file states. */
export function frameRequirements(tally: Tally): Requirement[] {
  const [statedMm] = scattersMm;
  const of = (scenario: Scenario, outcome: string): Count =>
    tally.of('frame', scenario, 'all', statedMm, outcome);
  const figures = (scenario: Scenario, what: string): Count =>
    tally.of('frame figures', scenario, statedMm, what);
  const rows = scenarios.flatMap((scenario): Requirement[] => {
    if (scenario === listed)
      return [{ what: `${scenario}: told`, count: of(scenario, 'told'), least: 0.95, most: 1 }];
    const [what, outcome] = soundScenarios.has(scenario)
      ? ['wrongly provisional', 'provisional']
      : ['taken as settled with some of it in the base', 'settled and wrong'];
    return [{ what: `${scenario}: ${what}`, count: of(scenario, outcome), least: 0, most: 0.02 }];
  });
  const judged = scenarios.filter((scenario) => scenario !== listed);
  return [
    ...rows,
    {
      what: 'once read as advised: every point of the scope can be decided',
      count: tally.of('advice', 'all', statedMm, 'decided after'),
      least: 0.9,
      most: 1,
    },
    {
      what: 'of sound bodies read as advised: settled, and every point can be decided',
      count: tally.of('advice', 'all', statedMm, 'settled after'),
      least: 0.9,
      most: 1,
    },
    ...judged.flatMap((scenario): Requirement[] => [
      {
        what: `${scenario}: settled, a point of the scope covered by its 95 % interval`,
        count: figures(scenario, 'covered'),
        least: 0.93,
        most: 0.98,
      },
      {
        what: `${scenario}: settled, a figure of the scope beyond 3 u`,
        count: figures(scenario, 'beyond 3 u'),
        least: 0,
        most: 0.005,
      },
    ]),
  ];
}

const listed: Scenario = 'listed base, half of it moved';
