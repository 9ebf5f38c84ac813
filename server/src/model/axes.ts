/** Length, width, height: 0 forward, 1 left, 2 up in vehicle axes. */
export type Axis = 0 | 1 | 2;
export const axes: readonly Axis[] = [0, 1, 2];

/** Lower and upper limit, mm; of a deviation lower ≤ 0 ≤ upper. */
export type Limits = readonly [number, number];

/** What a number of an instrument or a sheet counts towards. */
export type Direction = 'forward' | 'rearward' | 'left' | 'right' | 'up' | 'down' | 'outboard';
