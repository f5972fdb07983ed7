// Whether a calculated value keeps its limits, by the book's decision rule, and what is shown of both. The shown numbers
// never say anything else than the verdict: a value that fails is never printed as one that would pass.

import { acceptanceByUncertainty } from '../acceptance.js';
import { asDifference, fromBase, toBase } from '../conversion.js';
import type { DecisionRule, Verdict } from '../decision-rule.js';
import { piBounds } from '../elementary.js';
import type { Limits } from '../limits.js';
import { formatQuantity } from '../quantity-text.js';
import type { Enclosure, Rational } from '../rational.js';
import {
  absolute,
  add,
  compare,
  decimalExponent,
  divide,
  equals,
  larger,
  multiply,
  power,
  rational,
  sign,
  smaller,
  tenTo,
  toMultiple,
} from '../rational.js';
import type { Unit } from '../unit-type.js';

/** A value in base units with its U = 2u; both ends are equal but where a root or a sine was rounded. */
export interface Estimate {
  readonly value: Enclosure;
  readonly uncertainty: Rational;
}

/** What limits say of a value. */
export interface Judgement {
  readonly outcome: Verdict;
  /** The limit that is not kept, or that is too near. */
  readonly side?: 'low' | 'high';
  /** What decides at this uncertainty, rounded inward; undefined where nothing would pass. */
  readonly inUse?: Limits;
}

/**
 * Judges a value: within the limits less U on each side it passes (`simple`: within the limits as they are). Else it fails,
 * but under three zones only if it lies outside the limits by more than U; between these it is too close to call.
 */
export function judgeEstimate({ value, uncertainty }: Estimate, limits: Limits, decision: DecisionRule): Judgement {
  const { limits: inUse, failing } = acceptanceByUncertainty({ limits, uncertainty, decision });
  const side = sideOutside(value, inUse) ?? (inUse ? undefined : nearerEnd(value, limits));
  if (side === undefined) return { outcome: 'pass', ...(inUse && { inUse }) };
  const sure = decision !== 'three-zone' || sideOutside({ low: value.high, high: value.low }, failing) !== undefined;
  return { outcome: sure ? 'fail' : 'unsure', side, ...(inUse && { inUse }) };
}

/** The end beyond which some of a range lies; where it is turned round, beyond which all of it lies. */
function sideOutside(value: Enclosure, limits: Limits | undefined): 'low' | 'high' | undefined {
  if (limits?.low && compare(value.low, limits.low) < 0) return 'low';
  return limits?.high && compare(value.high, limits.high) > 0 ? 'high' : undefined;
}

function nearerEnd(value: Enclosure, { low, high }: Limits): 'low' | 'high' {
  if (!low || !high) return low ? 'low' : 'high';
  return compare(add(value.low, value.high), add(low, high)) < 0 ? 'low' : 'high';
}

/** A value as text: `2.54 %` and, where it has one, `0.31 %` of uncertainty to the same digit, rounded up. */
export interface EstimateText {
  readonly value: string;
  readonly uncertainty?: string;
}

const mostFiner = 12;

/**
 * Two digits of the uncertainty (JCGM 100, 7.2.6); without one a tenth of the step of the limits, without both four digits.
 * Finer where the shown number would lie on another side of a limit than the value does.
 */
export function writeEstimate(
  of: Estimate,
  unit: Unit,
  judged: { limits?: Limits; inUse?: Limits } = {},
): EstimateText {
  const { value, uncertainty } = of;
  const middle = multiply(add(value.low, value.high), rational(1, 2));
  let resolution = stepFor(of, unit, judged.limits);
  const ends = [judged.inUse?.low, judged.inUse?.high, judged.limits?.low, judged.limits?.high];
  const keepsSides = (): boolean => {
    const shown = rounded(middle, unit, resolution);
    return ends.every((end) => !end || compare(shown, end) === compare(middle, end) || equals(middle, end));
  };
  for (let i = 0; i < mostFiner && !keepsSides(); i += 1) resolution = multiply(resolution, rational(1, 10));
  const look = { unit, resolution };
  return {
    value: formatQuantity(middle, look),
    ...(sign(uncertainty) > 0 && {
      uncertainty: formatQuantity(uncertainty, { unit: asDifference(unit), resolution }, 'up'),
    }),
  };
}

function stepFor({ value, uncertainty }: Estimate, unit: Unit, limits: Limits | undefined): Rational {
  if (sign(uncertainty) > 0) return tenTo(decimalExponent(inUnit(uncertainty, asDifference(unit))) - 1);
  if (limits) {
    const written = divide(multiply(limits.resolution, limits.unit.factor), unit.factor);
    return tenTo(decimalExponent(written) - 1);
  }
  const size = larger(absolute(inUnit(value.low, unit)), absolute(inUnit(value.high, unit)));
  return sign(size) === 0 ? rational(1) : smaller(rational(1), tenTo(decimalExponent(size) - 3));
}

// through pi to ninety digits, which no shown number has
function inUnit(base: Rational, unit: Unit): Rational {
  const plain = fromBase(base, unit);
  return unit.pi === 0 ? plain : multiply(plain, power(piBounds.low, -unit.pi));
}

function rounded(base: Rational, unit: Unit, resolution: Rational): Rational {
  const shown = toBase(toMultiple(inUnit(base, unit), resolution, 'nearest'), unit);
  return unit.pi === 0 ? shown : multiply(shown, power(piBounds.low, unit.pi));
}
