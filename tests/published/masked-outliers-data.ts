/**
 * Data sets on which robust regression is taught, as they are printed. Groups of outliers in them mask each other: a fit of all lies so near to
 * them that no residual shows any.
 */

const rowsOf = (text: string): number[][] =>
  text
    .trim()
    .split('\n')
    .map((line) => line.trim().split(/\s+/).map(Number));

/** Rows of k numbers each. */
const chunks = (numbers: readonly number[], k: number): number[][] =>
  Array.from({ length: numbers.length / k }, (_, i) => numbers.slice(k * i, k * i + k));

/**
 * Cluster CYG OB1 (Humphreys 1978; Vansina & De Greve 1982; Rousseeuw & Leroy 1987, p. 27; R `robustbase`, starsCYG): logarithms of
 * temperature and of light of 47 stars. Four giants, 11, 20, 30 and 34, are no stars of the main sequence.
 */
export const stars = chunks(
  rowsOf(`
  4.37 5.23 4.56 5.74 4.26 4.93 4.56 5.74 4.30 5.19 4.46 5.46 3.84 4.65 4.57 5.27 4.26 5.57 4.37 5.12
  3.49 5.73 4.43 5.45 4.48 5.42 4.01 4.05 4.29 4.26 4.42 4.58 4.23 3.94 4.42 4.18 4.23 4.18 3.49 5.89
  4.29 4.38 4.29 4.22 4.42 4.42 4.49 4.85 4.38 5.02 4.42 4.66 4.29 4.66 4.38 4.90 4.22 4.39 3.48 6.05
  4.38 4.42 4.56 5.10 4.45 5.22 3.49 6.29 4.23 4.34 4.62 5.62 4.53 5.10 4.45 5.22 4.53 5.18 4.43 5.57
  4.38 4.62 4.45 5.06 4.50 5.34 4.45 5.34 4.55 5.54 4.45 4.98 4.42 4.50`).flat(),
  2,
);
export const giants = [11, 20, 30, 34] as const;

/** Stack loss (Brownlee 1965; Rousseeuw & Leroy 1987, p. 76; R `stackloss`): air flow, water temperature, acid concentration, loss. */
export const stackLoss = rowsOf(`
  80 27 89 42
  80 27 88 37
  75 25 90 37
  62 24 87 28
  62 22 87 18
  62 23 87 18
  62 24 93 19
  62 24 93 20
  58 23 87 15
  58 18 80 14
  58 18 89 14
  58 17 88 13
  58 18 82 11
  58 19 93 12
  50 18 89 8
  50 18 86 7
  50 19 72 8
  50 19 79 8
  50 20 80 9
  56 20 82 15
  70 20 91 15`);

/**
 * Artificial data of Hawkins, Bradu & Kass 1984 (Rousseeuw & Leroy 1987, p. 94; R `robustbase`, hbk): three regressors and the response. The first
 * ten are outliers; 11 to 14 fit the rest, but stand far away, and a fit of all calls them the outliers.
 */
export const hawkinsBraduKass = chunks(
  rowsOf(`
  10.1 19.6 28.3 9.7  9.5 20.5 28.9 10.1  10.7 20.2 31 10.3  9.9 21.5 31.7 9.5  10.3 21.1 31.1 10
  10.8 20.4 29.2 10  10.5 20.9 29.1 10.8  9.9 19.6 28.8 10.3  9.7 20.7 31 9.6  9.3 19.7 30.3 9.9
  11 24 35 -0.2  12 23 37 -0.4  12 26 34 0.7  11 34 34 0.1  3.4 2.9 2.1 -0.4
  3.1 2.2 0.3 0.6  0 1.6 0.2 -0.2  2.3 1.6 2 0  0.8 2.9 1.6 0.1  3.1 3.4 2.2 0.4
  2.6 2.2 1.9 0.9  0.4 3.2 1.9 0.3  2 2.3 0.8 -0.8  1.3 2.3 0.5 0.7  1 0 0.4 -0.3
  0.9 3.3 2.5 -0.8  3.3 2.5 2.9 -0.7  1.8 0.8 2 0.3  1.2 0.9 0.8 0.3  1.2 0.7 3.4 -0.3
  3.1 1.4 1 0  0.5 2.4 0.3 -0.4  1.5 3.1 1.5 -0.6  0.4 0 0.7 -0.7  3.1 2.4 3 0.3
  1.1 2.2 2.7 -1  0.1 3 2.6 -0.6  1.5 1.2 0.2 0.9  2.1 0 1.2 -0.7  0.5 2 1.2 -0.5
  3.4 1.6 2.9 -0.1  0.3 1 2.7 -0.7  0.1 3.3 0.9 0.6  1.8 0.5 3.2 -0.7  1.9 0.1 0.6 -0.5
  1.8 0.5 3 -0.4  3 0.1 0.8 -0.9  3.1 1.6 3 0.1  3.1 2.5 1.9 0.9  2.1 2.8 2.9 -0.4
  2.3 1.5 0.4 0.7  3.3 0.6 1.2 -0.5  0.3 0.4 3.3 0.7  1.1 3 0.3 0.7  0.5 2.4 0.9 0
  1.8 3.2 0.9 0.1  1.8 0.7 0.7 0.7  2.4 3.4 1.5 -0.1  1.6 2.1 3 -0.3  0.3 1.5 3.3 -0.9
  0.4 3.4 3 -0.3  0.9 0.1 0.3 0.6  1.1 2.7 0.2 -0.3  2.8 3 2.9 -0.5  2 0.7 2.7 0.6
  0.2 1.8 0.8 -0.9  1.6 2 1.2 -0.7  0.1 0 1.1 0.6  2 0.6 0.3 0.2  1 2.2 2.9 0.7
  2.2 2.5 2.3 0.2  0.6 2 1.5 -0.2  0.3 1.7 2.2 0.4  0 2.2 1.6 -0.9  0.3 0.4 2.6 0.2
`).flat(),
  4,
);
