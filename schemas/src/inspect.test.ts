import { describe, expect, it } from 'vitest';
import type { InspectOutput } from './index';
import { changed, jsonSchemaErrors, passesJsonSchema, passesZod } from './testing/validators';

// Invented figures; the shape is what counts here.
const output: InspectOutput = {
  framewright: 'inspect/1',
  files: [
    {
      path: 'jobs/w-2041.readings.yaml',
      chassis: '../specs/marten-hatch.chassis.yaml',
      order: 'W-2041',
      closed: false,
      stages: [
        {
          name: 'as received',
          line: 15,
          underTension: false,
          provisional: false,
          alignment: {
            base: ['floor-front.L', 'floor-front.R', 'floor-rear.L'],
            moved: ['floor-rear.R'],
            alternatives: [{ base: ['floor-rear.R'], moved: ['floor-rear.L'] }],
            inherited: null,
            rms: 0.41,
            scale: 1.0001,
            mirrored: false,
            rotation: [
              [1, 0, 0],
              [0, 1, 0],
              [0, 0, 1],
            ],
            translation: [15, -22, -310],
          },
          points: [
            {
              id: 'rail-tip-upper.L',
              line: 29,
              inBase: false,
              reference: [3005, 450, 356],
              measured: [2993.9, 440.5, 356.9],
              deviation: [-11.1, -9.5, 0.9],
              uncertainty: [0.8, 0.9, 0.9],
              limits: [
                [-2, 2],
                [-2, 2],
                [-2, 2],
              ],
              conformity: [0, 0, 0.9],
              verdict: 'outside',
            },
          ],
          asBefore: [],
          unreachable: ['strut-top.R'],
          spans: [
            {
              from: 'rail-tip-lower.R',
              to: 'strut-top.L',
              line: 34,
              reference: 1405.9,
              measured: 1406.3,
              deviation: 0.4,
              uncertainty: 1,
              limits: [-3, 3],
              conformity: 0.995,
              verdict: 'within',
            },
          ],
          parts: [
            {
              id: 'front-rail.L',
              shift: [-9.1, -4.2, 1],
              shiftUncertainty: [0.5, 0.5, 0.5],
              yaw: -0.8,
              yawUncertainty: 0.1,
              pitch: null,
              pitchUncertainty: null,
              twist: 2.31,
              twistUncertainty: 0.2,
              stretch: null,
              stretchUncertainty: null,
              residual: 0.7,
              stations: [
                {
                  at: 3005,
                  shift: [-9.1, -4.2, 1],
                  shiftUncertainty: [0.5, 0.5, 0.5],
                  twist: 2.31,
                  twistUncertainty: 0.2,
                },
              ],
              bow: { sideways: null, vertical: null },
              bend: {
                at: 2410,
                atUncertainty: 25,
                atInterval: [2336, 2444],
                sideways: -1.4,
                sidewaysUncertainty: 0.1,
                vertical: 0.1,
                verticalUncertainty: 0.1,
              },
            },
          ],
          body: {
            front: {
              length: -9,
              lengthUncertainty: 0.5,
              sideways: -14.1,
              sidewaysUncertainty: 0.5,
              height: 0.4,
              heightUncertainty: 0.5,
              diamond: -6,
              diamondUncertainty: 0.8,
              twist: 0.5,
              twistUncertainty: 0.1,
              tips: {
                length: -12.2,
                lengthUncertainty: 0.6,
                sideways: -20.3,
                sidewaysUncertainty: 0.6,
                height: 0.5,
                heightUncertainty: 0.6,
                left: [-15.1, -20.9, 0.7],
                leftUncertainty: [0.6, 0.6, 0.7],
                right: [-9.3, -19.7, 0.3],
                rightUncertainty: [0.6, 0.6, 0.7],
              },
              conditions: ['mash', 'sidesway', 'diamond'],
            },
            rear: null,
          },
        },
      ],
      springBack: [
        {
          part: 'front-rail.L',
          relieved: true,
          pulls: 2,
          ratio: 0.31,
          ratioUncertainty: 0.04,
          recovery: 6.2,
          recoveryRange: [5.1, 7.3],
        },
      ],
      signOff: { closed: false, passes: false, rule: 'simple', remaining: ['rail-tip-upper.L: outside'] },
      findings: [
        {
          rule: 'reading/outside',
          severity: 'error',
          message: 'rail-tip-upper.L is 11.1 mm too far rearward; limit ±2.0.',
          ignored: null,
          range: { start: { line: 28, character: 6 }, end: { line: 28, character: 22 } },
        },
      ],
    },
    {
      path: 'specs/marten-hatch.chassis.yaml',
      vehicle: 'Marten five-door hatchback, 2021 on',
      points: [
        {
          id: 'latch',
          line: 41,
          reference: [3046, 10, 782],
          base: false,
          limits: [
            [-3, 3],
            [-3, 3],
            [-3, 3],
          ],
        },
      ],
      findings: [],
    },
  ],
};

const stage = ['files', 0, 'stages', 0];
const point = [...stage, 'points', 0];
const alignment = [...stage, 'alignment'];
const part = [...stage, 'parts', 0];

describe('what inspect prints', () => {
  const judged = (path: (string | number)[], replacement: unknown) => {
    const value = changed(output, path, replacement);
    return [passesZod('inspect', value), passesJsonSchema('inspect', value)];
  };

  it('is accepted by both judges', () => {
    expect(passesZod('inspect', output)).toBe(true);
    expect(jsonSchemaErrors('inspect', output)).toEqual([]);
  });

  it.each([
    ['a stage of distances alone', alignment, null],
    ['a stage that could not be aligned', [...alignment, 'rotation'], null],
    ['a point judged on two axes', [...point, 'deviation'], [null, -9.5, 0.9]],
    ['a point that nothing is known of', [...point, 'measured'], null],
    ['the best-known direction', [...point, 'direction'], [0, 0.6, 0.8]],
    ['a part of which no turn is seen', [...part, 'twist'], null],
    ['no bend', [...part, 'bend'], null],
    ['no figures for the body', [...stage, 'body'], null],
    ['no figures for the body as yet', [...stage, 'body'], undefined],
    ['a job without an order', ['files', 0, 'order'], null],
    ['a silenced finding', ['files', 0, 'findings', 0, 'ignored'], 'bracket off'],
  ])('may hold %s', (_, path, replacement) => {
    expect(judged(path, replacement)).toEqual([true, true]);
  });

  it.each([
    ['another version', ['framewright'], 'inspect/2'],
    ['an unknown key', [...point, 'colour'], 'red'],
    ['a missing key', [...point, 'conformity'], undefined],
    ['two components', [...point, 'deviation'], [1, 2]],
    ['a reference with a gap', [...point, 'reference'], [3005, null, 356]],
    ['an unknown verdict', [...point, 'verdict'], 'good'],
    ['a line counted from 0', [...point, 'line'], 0],
    ['half a matrix', [...alignment, 'rotation'], [[1, 0, 0]]],
    ['a figure as text', [...part, 'yaw'], '-0.8°'],
    ['an unknown condition of the body', [...stage, 'body', 'front', 'conditions'], ['bent']],
    ['a severity that nothing has', ['files', 0, 'findings', 0, 'severity'], 'off'],
    ['stages in a chassis file', ['files', 1, 'stages'], []],
  ])('never holds %s', (_, path, replacement) => {
    expect(judged(path, replacement)).toEqual([false, false]);
  });
});
