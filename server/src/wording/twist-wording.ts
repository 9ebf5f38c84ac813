import { coverage95 } from '../inspection/alignment/verdict';
import type { Twist } from '../inspection/shape/stations';
import type { Axis } from '../model/chassis';
import { degreesPerRadian, figure } from '../model/units';

/** What a right-handed turn about a part's own way does to it, + and −, in words. */
const turnWords: Record<Axis, readonly [positive: string, negative: string]> = {
  0: ['top leans right', 'top leans left'],
  1: ['top leans forward', 'top leans rearward'],
  2: ['front turns left', 'front turns right'],
};

/** An angle to a tenth of a degree, without its sign: `2.3°`. */
export const angleFigure = (rad: number): string => `${figure(Math.abs(rad) * degreesPerRadian, 1)}°`;

/** Whether an angle is more than nothing as shown: below that it has no direction. */
export const showsAngle = (rad: number): boolean => Number.parseFloat(angleFigure(rad)) !== 0;

/** `±0.4°` at 95 %. */
export const angleCertainty = (uncertaintyRad: number): string =>
  `±${angleFigure(coverage95 * uncertaintyRad)}`;

/** `2.3° ±0.4° top leans right`. */
export function stationTwistText(
  { angleRad, uncertaintyRad }: Pick<Twist, 'angleRad' | 'uncertaintyRad'>,
  along: Axis,
): string {
  const text = `${angleFigure(angleRad)} ${angleCertainty(uncertaintyRad)}`;
  return showsAngle(angleRad) ? `${text} ${turnWord(angleRad, along)}` : text;
}

export const turnWord = (rad: number, along: Axis): string => turnWords[along][rad < 0 ? 1 : 0];
