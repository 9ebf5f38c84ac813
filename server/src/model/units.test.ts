import { describe, expect, it } from 'vitest';
import { figure, lengthText } from './units';

describe('a figure', () => {
  it('has its decimals, and a sign only where something is left of the number', () => {
    expect([-0.04, 0.04, -0, -0.06, -12, 12].map((value) => figure(value, 1))).toEqual([
      '0.0',
      '0.0',
      '0.0',
      '-0.1',
      '-12.0',
      '12.0',
    ]);
  });

  it('does not show the rounding noise of the way to it', () => {
    expect(figure(0.1 + 0.2 + 0.15, 1)).toBe(figure(0.45, 1));
  });

  it('stands with the unit of the file', () => {
    expect([lengthText(25.4, 'mm'), lengthText(25.4, 'inch')]).toEqual(['25.4 mm', '1.000 in']);
  });
});
