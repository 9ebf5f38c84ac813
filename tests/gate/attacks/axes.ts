import { type AttackGroup, all, inFile, inJob } from '../attack';
import { estatePath, hatchPath } from '../shop';
import { hingeOutside, tipOutside } from '../truths';

const axes = (words: string): string => `base: auto\naxes: [${words}]\n`;

export const axesAndUnits: AttackGroup = {
  title: 'Axes and units',
  attacks: [
    {
      name: 'the instrument is said to count widths the other way',
      truth: tipOutside,
      trick: inJob('base: auto\n', axes('forward, right, up')),
      seals: 'anew',
      answer: { refused: 'base/mirrored' },
    },
    {
      name: 'the instrument’s height and width are exchanged',
      truth: tipOutside,
      trick: inJob('base: auto\n', axes('forward, up, left')),
      seals: 'anew',
      answer: { refused: 'base/mirrored' },
    },
    {
      name: 'the instrument is said to show widths outboard',
      truth: hingeOutside,
      trick: inJob('base: auto\n', axes('forward, outboard, up')),
      seals: 'anew',
      answer: { refused: 'base/mirrored' },
    },
    {
      name: 'the sheet is said to count rearward',
      truth: tipOutside,
      trick: all(
        inFile(hatchPath, 'units: mm\n', 'units: mm\naxes: [rearward, outboard, up]\n'),
        inFile(estatePath, 'vehicle: Teal', 'axes: [rearward, outboard, up]\nvehicle: Teal'),
      ),
      seals: 'anew',
      answer: { refused: 'base/mirrored' },
    },
    {
      name: 'one sheet of two is said to count rearward',
      truth: tipOutside,
      trick: inFile(hatchPath, 'units: mm\n', 'units: mm\naxes: [rearward, outboard, up]\n'),
      seals: 'anew',
      answer: { refused: 'sign-off/unmeasured' },
    },
    {
      name: 'the sheet and the one that it extends are said to count rearward and downward, so that the body is turned and not mirrored',
      truth: tipOutside,
      trick: all(
        inFile(hatchPath, 'units: mm\n', 'units: mm\naxes: [rearward, outboard, down]\n'),
        inFile(estatePath, 'vehicle: Teal', 'axes: [rearward, outboard, down]\nvehicle: Teal'),
      ),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'the sheet is said to count widths to the left, though they stand outboard',
      truth: tipOutside,
      trick: inFile(estatePath, 'vehicle: Teal', 'axes: [forward, left, up]\nvehicle: Teal'),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
    {
      name: 'the readings are said to be in inches',
      truth: tipOutside,
      trick: inJob('base: auto\n', 'base: auto\nunits: inch\n'),
      seals: 'anew',
      answer: { refused: 'base/scale' },
    },
    {
      name: 'the sheet is said to be in inches',
      truth: tipOutside,
      trick: inFile(hatchPath, 'units: mm\n', 'units: inch\n'),
      seals: 'anew',
      answer: { refused: 'base/scale' },
    },
    {
      name: 'one sheet of two is said to be in inches',
      truth: tipOutside,
      trick: inFile(estatePath, 'vehicle: Teal', 'units: inch\nvehicle: Teal'),
      seals: 'anew',
      answer: { refused: 'sign-off/outside' },
    },
  ],
};
