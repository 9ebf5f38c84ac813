import { expect, it } from 'vitest';
import { chassisFileName, newChassisText } from '../client/src/tables/new-chassis-text';
import { analysed } from '../server/src/findings/testing/analysed';

it('a skeleton can be read, and holds no number that nobody stated', async () => {
  const name = 'specs/own.chassis.yaml';
  const text = newChassisText('Marten: "hatch" #2');
  const analysis = await analysed({ [name]: text }, name);
  expect(analysis.kind === 'chassis' && analysis.chassis.vehicle).toBe('Marten: "hatch" #2');
  expect(analysis.tree.problems).toEqual([]);
  expect(analysis.kind === 'chassis' && analysis.chassis.points.size).toBe(0);
});

it('the file is called as the vehicle is', () => {
  expect(chassisFileName(' Märten hatch, 2019 ')).toBe('marten-hatch-2019.chassis.yaml');
  expect(chassisFileName('…')).toBeNull();
});
