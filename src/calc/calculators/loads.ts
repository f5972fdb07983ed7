// The load calibration of the calculators' page: weighed loads to the factor, the line, the residuals and the load that
// spoils them, as numbers and as short texts.

import {
  findSpoiler,
  loadError,
  loadLine,
  throughOriginFactor,
  type WeighedLoad,
} from '../harvest/load-calibration.js';

/** What loads say, in the unit that they were given in. */
export interface LoadResults {
  readonly factor: string;
  /** `y = 12 + 0.97 x`; missing where all loads showed the same. */
  readonly line?: string;
  readonly scatter?: string;
  readonly worst: string;
  readonly errors: readonly string[];
  readonly residuals: readonly string[];
  readonly slope: number;
  /** The place of the load that the others do not bear out. */
  readonly spoiler?: number;
}

/** The loads of the worked example: no result depends on whether they are pounds or kilograms. */
export const exampleLoads: readonly WeighedLoad[] = [
  { shown: 3100, scale: 3000 },
  { shown: 4050, scale: 4000 },
  { shown: 5200, scale: 5000 },
  { shown: 6100, scale: 6000 },
];

/** Works out two loads or more, all above zero; undefined for fewer. Uncertainties are U = 2 s. */
export function calibrateLoads(loads: readonly WeighedLoad[]): LoadResults | undefined {
  if (loads.length < 2) return undefined;
  const factor = throughOriginFactor(loads);
  const line = loadLine(loads);
  const spoiler = findSpoiler(loads);
  const { residualStandardDeviation: scatter, slopeError } = factor;
  const errors = loads.map(loadError);
  const worst = errors.reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most));
  return {
    factor:
      slopeError === undefined
        ? factor.slope.toFixed(4)
        : `${factor.slope.toFixed(4)} ± ${(2 * slopeError).toFixed(4)}`,
    ...(line && { line: `y = ${Math.round(line.height)} + ${line.slope.toFixed(4)} x`.replace('+ -', '- ') }),
    ...(scatter !== undefined && { scatter: String(Math.round(scatter)) }),
    worst: percent(worst),
    errors: errors.map(percent),
    residuals: factor.residuals.map((residual) => String(Math.round(residual))),
    slope: factor.slope,
    ...(spoiler && { spoiler: spoiler.place }),
  };
}

function percent(share: number): string {
  return `${(share * 100).toFixed(1)} %`;
}
