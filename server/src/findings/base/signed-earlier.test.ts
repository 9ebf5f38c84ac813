import { describe, expect, it } from 'vitest';
import { failsCheck } from '../../commands/exit';
import type { Vec3 } from '../../geometry/vector';
import { jobOn } from '../../testing/car';
import { chassisText, headText, isControl, readingsText } from '../../testing/read-car';
import { analysed } from '../testing/analysed';
import { exampleFiles } from '../testing/examples';
import { hashOf } from '../testing/sign-off';
import { doubted } from './doubted';

const chassis = chassisText(undefined, 'build-elsewhere: 0.3\n');
const signature = (judgedBy: string) =>
  `sign-off:\n  by: rk\n  date: 2026-03-05\n  chassis: ${hashOf(chassis)}\n${judgedBy}`;
const under01 = signature('');
const under02 = signature('  judged-by: 0.2\n');

/** What check says of control points, and whether it fails. */
async function checked(moved: (id: string) => Vec3, signOff: string) {
  const text = jobOn(readingsText(moved, 0.2), headText()) + signOff;
  const files = { 'car.chassis.yaml': chassis, 'w.readings.yaml': text };
  const analysis = await analysed(files, 'w.readings.yaml');
  const said = analysis.findings
    .filter(({ rule }) => /^base\/(ambiguous|doubted)$/.test(rule))
    .map(
      ({ rule, severity, message }) =>
        `${severity} ${rule}${/\(newer than this signature\)$/.test(message) ? ', newer' : ''}`,
    );
  return { said, fails: failsCheck(analysis, false) };
}

/** All but the control points and the scope stands low, within its tolerance: by themselves both are in place. */
const lowAround = (id: string): Vec3 => (isControl(id) || /^rail/.test(id) ? [0, 0, 0] : [0, 0, -2.5]);
/** Two bodies of control points, whatever stands around. */
const twoBodies = (id: string): Vec3 => (/^(floor-front|toe-board)/.test(id) ? [0, 30, 0] : [0, 0, 0]);

describe('control points of a job that was signed before what stands around them had a say', () => {
  it('stay as they were signed: a story of what stands around warns', async () => {
    expect(await checked(lowAround, under02)).toEqual({ said: ['error base/ambiguous'], fails: true });
    expect(await checked(lowAround, under01)).toEqual({
      said: ['warning base/ambiguous, newer'],
      fails: false,
    });
  });

  it('are as ambiguous as they were by themselves', async () => {
    for (const signOff of [under01, under02])
      expect(await checked(twoBodies, signOff)).toEqual({ said: ['error base/ambiguous'], fails: true });
  });

  it('are doubted no more than a newer rule may', async () => {
    const { example, exampleIn } = doubted.page;
    if ('notRun' in exampleIn) throw new Error('its example is a file');
    const { files, name } = exampleFiles(example, exampleIn);
    const severities = async (signOff: string) => {
      const { findings } = await analysed({ ...files, [name]: `${files[name]}\n${signOff}` }, name);
      return findings.flatMap(({ rule, severity }) => (rule === doubted.name ? [severity] : []));
    };
    expect(await severities(under02)).toEqual(['error']);
    expect(await severities(under01)).toEqual(['warning']);
  });
});
