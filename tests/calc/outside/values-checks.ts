// What the core makes of each check value: by `calc`, as a person would ask it, where it is arithmetic with units, else by
// the function that is meant for it. The values themselves, and their sources, stand in the file that is checked.

import {
  reelRatio,
  reelSpeed,
  rowLengthForArea,
  spacingForRowLength,
  timeForDistance,
} from '../../../src/calc/harvest/area.js';
import { throughOriginFactor } from '../../../src/calc/harvest/load-calibration.js';
import { concentrationFactor, lossFromCount, seedsPerLoss } from '../../../src/calc/harvest/loss.js';
import {
  bushelMassAt,
  bushelParts,
  flatRatio,
  massRatio,
  shrinkPerPoint,
  tradeBushels,
  waterShrink,
} from '../../../src/calc/harvest/moisture.js';
import { partialRowError, yieldFromEars } from '../../../src/calc/harvest/yield.js';
import { armLift, heightPerStep } from '../../../src/calc/sensors/arm.js';
import { converterStep, quantisationUncertainty } from '../../../src/calc/sensors/converter.js';
import { crossoverBound, delayError, delayPhase, speedForSlope } from '../../../src/calc/sensors/following.js';
import { absolutePressure, accumulatorVolumes, cylinderSpeed } from '../../../src/calc/sensors/hydraulics.js';
import { dividerOutput } from '../../../src/calc/sensors/potentiometer.js';
import { linearOutput, linearSensitivity, ratiometricOutput } from '../../../src/calc/sensors/ratiometric.js';
import { fitLine, predict } from '../../../src/calc/statistics/line.js';
import { normalQuantile } from '../../../src/calc/statistics/normal.js';
import { coverageFactor } from '../../../src/calc/statistics/student.js';
import { correlation, summarise } from '../../../src/calc/statistics/summary.js';
import { combine, expand } from '../../../src/calc/uncertainty/combine.js';
import {
  conformityProbability,
  guardForRisk,
  specificRisk,
  testUncertaintyRatio,
} from '../../../src/calc/uncertainty/decisions.js';
import { degreesFromDoubt, standardUncertainty } from '../../../src/calc/uncertainty/type-b.js';
import { runCalc } from '../../../src/commands/calc.js';

/** What came out, what is expected, and how far they may lie apart, relative (1e-12 where nothing is said). */
export type Pair = readonly [actual: number | undefined, expected: number, within?: number | undefined];

/** A number as `calc` gives it. */
export function calc(expression: string, to?: string): number {
  const { text, exit } = runCalc({ expression, format: 'json', ...(to !== undefined && { to }) });
  if (exit !== 0) throw new Error(`${expression}: ${text}`);
  return JSON.parse(text).value;
}

const inch = 0.0254;
const foot = 0.3048;
const mph = 0.44704;
const acre = 43560 * foot * foot;
const degree = Math.PI / 180;
const psi = calc('1 psi', 'Pa');

/** The first number of an entry against one of `calc`. */
const asked =
  (expression: string, to?: string) =>
  (values: readonly number[]): readonly Pair[] => [[calc(expression, to), values[0] as number]];

/** Several of them, in the order of the entry. */
const each =
  (...questions: readonly (readonly [expression: string, to?: string, within?: number])[]) =>
  (values: readonly number[]): readonly Pair[] =>
    questions.map(([expression, to, within], i) => [calc(expression, to), values[i] as number, within]);

/** Numbers of functions, in the order of the entry. */
const made =
  (actual: () => readonly (number | undefined)[], within?: number) =>
  (values: readonly number[]): readonly Pair[] =>
    actual().map((one, i) => [one, values[i] as number, within]);

const gauge = [
  { sensitivity: 1, uncertainty: 25, degrees: 18 },
  { sensitivity: 1, uncertainty: 9.7, degrees: 25.6 },
  { sensitivity: -50.000623e6 * -0.1, uncertainty: 5.8e-7, degrees: 50 },
  { sensitivity: -50.000623e6 * 11.5e-6, uncertainty: 0.029, degrees: 2 },
  { sensitivity: 0, uncertainty: 0.41 },
  { sensitivity: 0, uncertainty: 1.2e-6 },
];
const corn = { mass: 56, moisture: 0.155 };

/** By id: what is compared. Numbers of an entry are given in the order in which they stand there. */
export const checks: Readonly<Record<string, (values: readonly number[], entry: unknown) => readonly Pair[]>> = {
  'U-01': asked('1 in', 'm'),
  'U-02': asked('1 ft', 'm'),
  'U-03': asked('1 mi', 'm'),
  'U-04': asked('1 sq ft', 'm^2'),
  'U-05': asked('1 ac', 'm^2'),
  'U-07': asked('1 ha', 'm^2'),
  'U-08': asked('1 lb', 'kg'),
  'U-10': asked('1 gal', 'm^3'),
  'U-11': asked('1 psi', 'Pa'),
  'U-12': asked('1 hp', 'W'),
  'U-13': asked('1 mph', 'm/s'),
  'U-14': asked('1 ft/min', 'm/s'),
  'U-15': asked('1 km/h', 'm/s'),
  'U-16': asked('1 lbf', 'N'),
  'U-17': asked('1 bar', 'Pa'),
  'U-18': asked('1 short ton', 'kg'),
  'U-19': asked('1 t', 'kg'),
  'U-21': (values) => [[calc('1 rpm', 'rad/s'), values[0] as number, 1e-9]],
  'U-22': each(['32 degF', 'degC'], ['212 degF', 'degC'], ['-40 degF', 'degC'], ['68 degF', 'degC'], ['0 degC', 'K']),
  'U-23': (values) => [
    [calc('2150.42 in^3', 'ft^3'), values[0] as number, 1e-9],
    [calc('2150.42 in^3', 'L'), values[1] as number],
  ],
  'U-24': each(['1 mph', 'ft/min'], ['1 mph', 'ft/s', 1e-9]),
  'U-25': each(['1 ac', 'sq ft'], ['1 mi * 1 mi', 'ac'], ['1 ac', 'ha'], ['1 ha', 'ac', 1e-9]),
  'U-28': (values) => [[(calc('1 lb / 2150.42 in^3', 'kg/L') as number) * 100, values[0] as number, 1e-9]],
  'U-30': each(['1 lb', 'kg'], ['1 short ton', 't'], ['0 degC', 'K']),
  'M-02': () => {
    const found = combine(gauge);
    const { factor, degrees } = expand(found.uncertainty, 0.99, found.degrees);
    return [
      [found.uncertainty ** 2, 1002, 0.01],
      [found.uncertainty, 32, 0.02],
      [found.degrees, 16.7, 0.005],
      [degrees, 16],
      [factor, 2.92, 0.002],
      // the guide multiplies the rounded 32 nm
      [factor * Math.round(found.uncertainty), 93, 0.01],
      ...([25, 9.7, 2.9, 16.6] as const).map((share, i): Pair => [found.shares[i], share, 0.01]),
    ];
  },
  'M-03': () => {
    const ties = [
      { first: 2, second: 4, mixedDerivative: -50.000623e6 },
      { first: 3, second: 5, mixedDerivative: -50.000623e6 },
    ];
    return [[combine(gauge, ties).uncertainty, 33.911, 2e-4]];
  },
  'M-04': (values) => {
    const found = summarise(values.slice(0, 20));
    return [
      [found?.mean, 100.145, 1e-9],
      [found?.standardDeviation, 1.489, 2e-4],
      [found?.standardError, 0.333, 4e-4],
    ];
  },
  'M-05': (_, entry) => {
    const { V_V: v, I_A: i, phi_rad: phi } = entry as Record<string, readonly number[]>;
    if (!v || !i || !phi) return [];
    return [
      [summarise(v)?.mean, 4.999, 1e-6],
      [summarise(v)?.standardError, 0.0032, 0.005],
      [summarise(i)?.standardError, 9.5e-6, 0.005],
      [summarise(phi)?.standardError, 0.00075, 0.005],
      [correlation(v, i), -0.36, 0.02],
      [correlation(v, phi), 0.86, 0.005],
      [correlation(i, phi), -0.65, 0.01],
    ];
  },
  'M-08': (_, entry) => {
    const { t_C: t, b_C: b } = entry as Record<string, readonly number[]>;
    const line = t && b && fitLine(t, b, 20);
    if (line?.kind !== 'fitted') return [];
    const at = predict(line, 30);
    return [
      [line.height, -0.1712, 1e-3],
      [line.slope, 0.00218, 2e-3],
      [line.heightError, 0.0029, 0.01],
      [line.slopeError, 0.00067, 0.01],
      [line.correlation, -0.93, 1e-3],
      [line.residualStandardDeviation, 0.0035, 1e-3],
      [at.value, -0.1494, 1e-3],
      [at.lineError, 0.0041, 0.01],
    ];
  },
  'M-09': () => {
    const found = combine(
      [
        [0.25, 9],
        [0.57, 4],
        [0.82, 14],
      ].map(([uncertainty = 0, degrees = 1]) => ({ sensitivity: 1, uncertainty, degrees })),
    );
    return [
      [found.uncertainty, 1.03, 0.005],
      [found.degrees, 19, 1e-4],
      [coverageFactor(0.95, 19), 2.09, 0.002],
      [2.09 * found.uncertainty, 2.2, 0.03],
    ];
  },
  'M-10': made(
    () => [
      coverageFactor(0.95, 16),
      coverageFactor(0.9545, 16),
      coverageFactor(0.99, 16),
      coverageFactor(0.9545, Infinity),
      coverageFactor(0.95, 5),
      coverageFactor(0.95, 19),
    ],
    0.003,
  ),
  'M-11': () => [
    [standardUncertainty({ shape: 'resolution', step: 0.01 }), 0.0028868, 1e-4],
    [degreesFromDoubt(0.25), 8],
    [degreesFromDoubt(0.1), 50],
    [degreesFromDoubt(0.5), 2],
  ],
  'M-12': (values) => {
    const found = combine(values.slice(0, 5).map((uncertainty) => ({ sensitivity: 1, uncertainty })));
    return [
      [found.uncertainty, 29.26, 1e-3],
      [2 * found.uncertainty, 58.5, 1e-3],
    ];
  },
  'M-20': () => [[conformityProbability({ low: 490 }, { value: 509.7, uncertainty: 8.6 }), 0.98900954738482, 1e-12]],
  'M-21': () => [[conformityProbability({ high: -5.4 }, { value: -5.47, uncertainty: 0.05 }), 0.91924334076623, 1e-10]],
  'M-22': () => [
    [conformityProbability({ low: 12.5, high: 16.3 }, { value: 13.6, uncertainty: 1.8 }), 0.66262978649531, 1e-12],
  ],
  'M-23': made(() => [0.8, 0.9, 0.95, 0.99, 0.999, 0.9999].map((share) => normalQuantile(share)), 1e-12),
  'M-27': () => [
    [specificRisk(3), 1e-9, 0.02],
    [specificRisk(1.5), 0.00135, 1e-3],
    [specificRisk(1), 0.025, 0.1],
    [specificRisk(0.83), 0.05, 0.04],
    [specificRisk(0), 0.5],
  ],
  'M-28': () => [
    [guardForRisk(0.05), 1.65, 0.005],
    [guardForRisk(0.05) / 2, 0.825, 0.005],
  ],
  'M-29': () => [[testUncertaintyRatio({ low: 0, high: 8 }, 1), 4]],
  'M-31': (values) =>
    (
      [
        '1.755 V * 0.5 % + 0.001 V',
        '100 V * 1 % + 2 * 0.1 V',
        '2 V * 0.5 % + 3 * 0.001 V',
        '2 V * 0.08 % + 2 * 0.001 V',
      ] as const
    ).map((expression, i): Pair => [calc(expression, 'V'), values[3 * i] as number]),
  'M-32': (values) => [
    [calc('2.5 V * 0.5 % + 3 * 0.001 V', 'V'), values[0] as number],
    [calc('(2.5 V * 0.5 % + 3 * 0.001 V) / sqrt(3)', 'V'), values[1] as number, 1e-9],
  ],
  'A-01': each(['1 mph * 1 ft', 'ac/h', 1e-9], ['1 ac/h / (1 mph * 1 ft)']),
  'A-03': each(
    ['12 * 30 in', 'ft'],
    ['12 * 30 in * 5 mph', 'ac/h', 1e-7],
    ['12 * 30 in * 5 mph * 80 %', 'ac/h', 1e-4],
    ['12 * 30 in * 5 mph * 60 %', 'ac/h', 1e-4],
  ),
  'A-05': asked('88 ft / 12 s', 'mph'),
  'A-06': (values) =>
    [88, 100, 200, 300].flatMap((feet, row) =>
      [2, 2.5, 3, 3.5, 4, 4.5, 5, 6].map(
        (speed, i): Pair => [timeForDistance(feet * foot, speed * mph), values[row * 8 + i] as number, 1e-5],
      ),
    ),
  'A-07': each(['3 ft / 20 s', 'mph', 1e-9]),
  'A-08': (values) => [
    [reelSpeed(mph, inch, 1.5) * 60, values[0] as number],
    [reelSpeed(3 * mph, 42 * inch, 1.5) * 60, 36, 1e-3],
    [reelRatio(0.6, 42 * inch, 3 * mph), 1.5, 1e-3],
  ],
  'A-10': each(
    ...[
      '4 * 30',
      '6 * 30',
      '8 * 30',
      '12 * 30',
      '16 * 30',
      '18 * 30',
      '24 * 20',
      '12 * 20',
      '8 * 36',
      '6 * 38',
      '12 * 22',
    ].map((text) => [`${text} in`, 'ft'] as const),
  ),
  'A-12': () => [[yieldFromEars({ ears: 30, area: 1 / 1000 }, { rows: 16, kernels: 30 }, 90_000), 160, 1e-9]],
  'A-13': (values) => [
    ...[6, 8, 12].map((rows, i): Pair => [rowLengthForArea(acre / 100, rows, 30 * inch) / foot, values[i] as number]),
    [rowLengthForArea(acre / 100, 1, 20 * inch) / foot, values[3] as number],
    [rowLengthForArea(acre / 100, 1, 30 * inch) / foot, values[4] as number],
  ],
  'A-14': (values) => [
    [rowLengthForArea(acre / 100, 1, 20 * inch) / foot, values[0] as number],
    [rowLengthForArea(acre / 100, 1, 30 * inch) / foot, values[1] as number],
    [spacingForRowLength(acre / 100, 1, 187 * foot) / inch, values[2] as number],
  ],
  'A-16': (values) => [
    [seedsPerLoss(90_000, 43_560), values[0] as number],
    [seedsPerLoss(85_000, 43_560), values[1] as number],
    [seedsPerLoss(162_000, 43_560), values[2] as number],
    [calc('20 * 43560 / 60'), values[3] as number],
  ],
  'A-18': made(() => [concentrationFactor(30, 5)]),
  'A-19': made(() => [lossFromCount(20, 10, 2)]),
  'A-20': made(() => [lossFromCount(20, 1, 2)]),
  'A-30': (values) => [
    [waterShrink(0.25, 0.155) * 100, values[0] as number],
    [calc('1 - (100 % - 25 %) / (100 % - 15.5 %)', '%'), values[0] as number, 1e-9],
  ],
  'A-31': (_, entry) =>
    Object.entries(entry as Record<string, number>).map(
      ([to, factor]): Pair => [shrinkPerPoint(Number(to) / 100) * 100, factor],
    ),
  'A-32': made(() => [bushelParts(corn).dry, bushelParts(corn).water]),
  'A-33': (values) => [0.155, 0.15, 0.13, 0.14].map((to, i): Pair => [100 * massRatio(0.2, to), values[i] as number]),
  'A-34': (_, entry) =>
    Object.entries(entry as Record<string, number>).map(
      ([moisture, factor]): Pair => [massRatio(Number(moisture) / 100, 0.155), factor, 1e-6],
    ),
  'A-35': made(() => [
    bushelParts({ mass: 60, moisture: 0.13 }).dry,
    bushelParts({ mass: 60, moisture: 0.13 }).water,
    bushelMassAt({ mass: 60, moisture: 0.13 }, 0.11),
  ]),
  'A-37': made(() => [1000 * flatRatio(0.2, 0.15, { perPoint: 0.012 }), 1000 * massRatio(0.2, 0.15)]),
  'A-41': made(() => [tradeBushels(60_000, corn)]),
  'A-53': (values) => [
    [1 + partialRowError(8, 7).yieldError, 7 / 8],
    [calc('20 ft / 17.5 ft'), values[0] as number, 1e-9],
    [calc('17.5 ft / 20 ft'), values[1] as number],
  ],
  'A-57': (values) => {
    const [monitor, scale] = [
      [3100, 4050, 5200, 6100],
      [3000, 4000, 5000, 6000],
    ];
    const loads = monitor.map((shown, i) => ({ shown, scale: scale[i] as number }));
    return [
      [calc('5000 lb / 4850 lb'), values[0] as number, 1e-9],
      [calc('4850 lb / 5000 lb - 1'), values[1] as number, 1e-9],
      [throughOriginFactor(loads).slope, values.at(-1) as number],
    ];
  },
  'A-58': (values) => [[calc('20 ft * 1320 ft', 'ac'), values[0] as number, 1e-9]],
  'N-01': (values) =>
    [5, 4.75, 5.25, 3].flatMap((supply, i): readonly Pair[] => [
      [ratiometricOutput(0.1, supply), values[2 * i] as number],
      [ratiometricOutput(0.9, supply), values[2 * i + 1] as number],
    ]),
  'N-04': (values) => {
    const points = { from: { input: -45, output: 0.5 }, to: { input: 45, output: 4.5 } };
    return [
      [linearOutput(points, 0), values[0] as number],
      [linearOutput(points, 10), values[1] as number],
      [linearSensitivity(points) * 1000, values[2] as number],
    ];
  },
  'N-07': made(() => [dividerOutput(12, 10_000, 10_000), dividerOutput(12, 1000, 4700)]),
  'N-08': (values) =>
    [8, 10, 12].flatMap((bits, i): readonly Pair[] => [
      [converterStep({ bits, reference: 5, convention: 'steps' }), values[2 * i] as number],
      [converterStep({ bits, reference: 5, convention: 'codes' }), values[2 * i + 1] as number],
    ]),
  'N-09': made(() => [quantisationUncertainty({ bits: 10, reference: 5, convention: 'steps' })]),
  'N-10': made(
    () => [heightPerStep({ length: 0.6, angle: 0 }, { step: 5 / 1024, sensitivity: 4 / (90 * degree) })],
    1e-9,
  ),
  'N-11': made(() => [linearOutput({ from: { input: 0.9, output: 0 }, to: { input: 4.1, output: 400 } }, 2.5)]),
  'H-01': made(() => {
    const { atLeast, atMost, usable } = accumulatorVolumes({ volume: 10, precharge: 1000, least: 1200, most: 3000 });
    return [atLeast, atMost, usable];
  }),
  'H-03': made(() => {
    const at = (gaugePressure: number) => absolutePressure(gaugePressure * psi) / psi;
    return [accumulatorVolumes({ volume: 10, precharge: at(1000), least: at(1200), most: at(3000) }).usable];
  }, 1e-6),
  'H-06': made(() => [cylinderSpeed(40 / 60_000, { count: 2, bore: 0.08 })]),
  'G-01': (values) => [
    [armLift(2, -10 * degree, 10 * degree), values[0] as number],
    [armLift(2, 0, 30 * degree), values[1] as number],
    [calc('2 m * (sin(10 deg) - sin(-10 deg))', 'm'), values[0] as number, 1e-9],
  ],
  'G-03': (values) => [
    [armLift(0.5, 0, 5 * degree), values[0] as number],
    [calc('0.5 m * 5 deg / 1 rad', 'm'), values[1] as number, 1e-9],
  ],
  'C-04': (values) =>
    [0.1, 0.2, 0.3, 0.5].flatMap((delay, i): readonly Pair[] => [
      [crossoverBound(delay), values[2 * i] as number],
      [crossoverBound(delay) / (2 * Math.PI), values[2 * i + 1] as number],
    ]),
  'C-06': (values) => [
    [speedForSlope({ lift: 0.15, lower: 1 }, 0.1), values[0] as number],
    [calc('(0.15 m/s) / 10 %', 'mph'), values[1] as number, 1e-9],
  ],
  'C-07': made(() => [delayError(2, 0.3, 0.05)]),
  'C-08': made(() => [delayPhase(0.5, 0.2) / degree]),
};

/** By id or by the letter of a whole family: why nothing is computed of it here. */
export const notComputed: Readonly<Record<string, string>> = {
  'U-06':
    'the survey acre is no unit of the table, on purpose: a book that mixed both would be wrong by 4 parts in a million',
  'U-09': 'a bushel is a count of a crop, not a volume; as a volume it is written in cubic inches, which U-23 checks',
  'U-26': 'legal masses of crops stand in the book (crops.yaml), with their source there',
  'I-01': 'how many vectors there are says nothing of the core',
  'I-02': 'how many vectors there are says nothing of the core',
  'I-03': 'the vectors are run by itf1788.test.ts',
  'I-05': 'checked in interval/arithmetic.test.ts and elementary.test.ts',
  'I-06': 'principles; kept by the vectors and the inclusion properties',
  'I-07': 'checked in interval/arithmetic.test.ts',
  'I-08': 'checked in interval/arithmetic.test.ts',
  'M-01': 'the inputs of M-02 and M-03',
  'M-29b': 'a rule of thumb; warned of by the rule for instruments that are too coarse',
  S: 'the data sets are run by strd.test.ts, the guide values of capability are no result',
  'A-04': 'a table of typical efficiencies and speeds: data of a book, no result',
  'A-15': 'counts per square foot are data of a book; what follows from one is checked by A-19 and A-20',
  'A-17': 'a count that a handbook gives, for a crop that has no legal bushel',
  'A-23': 'two counts that were exchanged: noticed in harvest.test.ts',
  'A-24': 'acceptable losses are limits of a book',
  'A-39': 'a measured range, no formula',
  'A-40': 'grades are data of a book',
  'A-50': 'advice on how much to weigh',
  'A-51': 'advice on how often',
  'A-52': 'what a good calibration reaches: a limit of a book',
  'A-55': 'a measurement in a field',
  'A-56': 'a measurement on a stand',
  'A-59': 'follows from a product: 1 % of a factor is 1 % of the result',
  'A-60': 'shares that were measured',
  'A-61': 'advice',
  'N-02': 'bands are data of a book; what lies in which is checked in sensors.test.ts',
  'N-03': 'numbers of failure modes, checked in sensors.test.ts',
  'H-04': "makers' guides, checked in sensors.test.ts",
  'C-01': 'no number',
  'C-02': 'a share that was measured',
  'C-03': 'no number',
  F: 'rules of safety; no number follows from another',
};
