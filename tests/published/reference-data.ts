/**
 * Data and certified values of publications, as printed there.
 * NIST: National Institute of Standards and Technology, Statistical Reference Datasets (public domain).
 */

const pairs = (text: string): number[][] =>
  text
    .trim()
    .split('\n')
    .map((line) => line.trim().split(/\s+/).map(Number));

/** NIST Norris.dat: y, x */
const norrisRows = pairs(`
  0.1 0.2
  338.8 337.4
  118.1 118.2
  888.0 884.6
  9.2 10.1
  228.1 226.5
  668.5 666.3
  998.5 996.3
  449.1 448.6
  778.9 777.0
  559.2 558.2
  0.3 0.4
  0.1 0.6
  778.1 775.5
  668.8 666.9
  339.3 338.0
  448.9 447.5
  10.8 11.6
  557.7 556.0
  228.3 228.1
  998.0 995.8
  888.8 887.6
  119.6 120.2
  0.3 0.3
  0.6 0.3
  557.6 556.8
  339.3 339.1
  888.0 887.2
  998.5 999.0
  778.9 779.0
  10.2 11.1
  117.6 118.3
  228.9 229.2
  668.4 669.1
  449.2 448.9
  0.2 0.5`);

export const norris = {
  name: 'Norris',
  design: norrisRows.map(([, x]) => [1, x]),
  observed: norrisRows.map(([y]) => y),
  certified: [-0.262323073774029, 1.00211681802045],
  standardDeviations: [0.232818234301152, 0.429796848199937e-3],
  residualStandardDeviation: 0.884796396144373,
};

/** NIST Longley.dat (Longley 1967): y, x1 … x6 */
const longleyRows = pairs(`
  60323 83.0 234289 2356 1590 107608 1947
  61122 88.5 259426 2325 1456 108632 1948
  60171 88.2 258054 3682 1616 109773 1949
  61187 89.5 284599 3351 1650 110929 1950
  63221 96.2 328975 2099 3099 112075 1951
  63639 98.1 346999 1932 3594 113270 1952
  64989 99.0 365385 1870 3547 115094 1953
  63761 100.0 363112 3578 3350 116219 1954
  66019 101.2 397469 2904 3048 117388 1955
  67857 104.6 419180 2822 2857 118734 1956
  68169 108.4 442769 2936 2798 120445 1957
  66513 110.8 444546 4681 2637 121950 1958
  68655 112.6 482704 3813 2552 123366 1959
  69564 114.2 502601 3931 2514 125368 1960
  69331 115.7 518173 4806 2572 127852 1961
  70551 116.9 554894 4007 2827 130081 1962`);

export const longley = {
  name: 'Longley',
  design: longleyRows.map(([, ...x]) => [1, ...x]),
  observed: longleyRows.map(([y]) => y),
  certified: [
    -3482258.63459582, 15.0618722713733, -0.35819179292591e-1, -2.02022980381683, -1.03322686717359,
    -0.511041056535807e-1, 1829.15146461355,
  ],
  standardDeviations: [
    890420.383607373, 84.9149257747669, 0.334910077722432e-1, 0.488399681651699, 0.214274163161675,
    0.22607320006937, 455.478499142212,
  ],
  residualStandardDeviation: 304.854073561965,
};

type Model = (b: readonly number[], x: number) => number;
type Gradient = (b: readonly number[], x: number) => number[];

/** NIST Misra1a (Misra 1978), lower difficulty: b₁ (1 − exp(−b₂ x)) */
export const misra1a = {
  name: 'Misra1a',
  model: ((b, x) => b[0] * (1 - Math.exp(-b[1] * x))) as Model,
  gradient: ((b, x) => [1 - Math.exp(-b[1] * x), b[0] * x * Math.exp(-b[1] * x)]) as Gradient,
  x: [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0],
  y: [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78],
  starts: [
    [500, 0.0001],
    [250, 0.0005],
  ],
  certified: [2.3894212918e2, 5.5015643181e-4],
  standardDeviations: [2.7070075241, 7.2668688436e-6],
  residualSumOfSquares: 1.2455138894e-1,
};

/** NIST Rat42 (Ratkowsky 1983), higher difficulty: b₁ / (1 + exp(b₂ − b₃ x)) */
export const rat42 = {
  name: 'Rat42',
  model: ((b, x) => b[0] / (1 + Math.exp(b[1] - b[2] * x))) as Model,
  gradient: ((b, x) => {
    const e = Math.exp(b[1] - b[2] * x);
    const slope = (b[0] * e) / (1 + e) ** 2;
    return [1 / (1 + e), -slope, x * slope];
  }) as Gradient,
  x: [9, 14, 21, 28, 42, 57, 63, 70, 79],
  y: [8.93, 10.8, 18.59, 22.33, 39.35, 56.11, 61.73, 64.62, 67.08],
  starts: [
    [100, 1, 0.1],
    [75, 2.5, 0.07],
  ],
  certified: [7.2462237576e1, 2.6180768402, 6.7359200066e-2],
  standardDeviations: [1.7340283401, 8.8295217536e-2, 3.4465663377e-3],
  residualSumOfSquares: 8.0565229338,
};

/** NIST MGH09 (Kowalik & Osborne 1978), higher difficulty: b₁ (x² + b₂ x) / (x² + b₃ x + b₄) */
export const mgh09 = {
  name: 'MGH09',
  model: ((b, x) => (b[0] * (x * x + x * b[1])) / (x * x + x * b[2] + b[3])) as Model,
  gradient: ((b, x) => {
    const below = x * x + x * b[2] + b[3];
    const value = (b[0] * (x * x + x * b[1])) / below;
    return [(x * x + x * b[1]) / below, (b[0] * x) / below, (-value * x) / below, -value / below];
  }) as Gradient,
  x: [4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625],
  y: [0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246],
  starts: [
    [25, 39, 41.5, 39],
    [0.25, 0.39, 0.415, 0.39],
  ],
  certified: [1.9280693458e-1, 1.9128232873e-1, 1.2305650693e-1, 1.3606233068e-1],
  standardDeviations: [1.1435312227e-2, 1.9633220911e-1, 8.0842031232e-2, 9.0025542308e-2],
  residualSumOfSquares: 3.0750560385e-4,
};

/** GUM, JCGM 100:2008, table H.6: °C */
export const thermometer = {
  readings: [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511],
  corrections: [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16],
};
