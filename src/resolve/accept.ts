// The limits in use of a check value: its tolerance less the uncertainty of what it is read with.

import { acceptanceLimits } from '../calc/acceptance.js';
import { expandedUncertainty } from '../calc/accuracy.js';
import { sameDimension } from '../calc/dimension.js';
import { formatLimits } from '../calc/display.js';
import type { Limits } from '../calc/limits.js';
import { add, compare, divide, larger, multiply, type Rational, subtract, toMultiple } from '../calc/rational.js';
import { isSameSize, type Unit } from '../calc/unit.js';
import type { CheckValue, DecisionRule } from '../model/procedure.js';
import type { ResolvedValue } from '../model/resolved.js';
import type { Span } from '../text/source.js';
import type { Derivation } from './derive.js';
import type { FoundInstrument } from './instruments.js';
import { propagateUncertainty } from './propagate.js';
import type { Scene } from './scene.js';

/** What decides on a reading. */
export type InUse = Pick<ResolvedValue, 'acceptance' | 'failing' | 'uncertainty' | 'resolution'>;

/** A value that is to be judged. */
export interface Judged {
  readonly source: CheckValue;
  readonly unit: Unit;
  readonly decision: DecisionRule;
  readonly tolerance?: Limits;
  /** Where the limits are written. */
  readonly at: Span;
}

/** The limits in use of a value that is read directly; without an instrument the tolerance itself. */
export function acceptReading(scene: Scene, judged: Judged, instrument: FoundInstrument | undefined): InUse {
  const { tolerance, unit, decision } = judged;
  // a rule of its own speaks of an instrument that measures something else
  const fits = instrument && (!instrument.unit || sameDimension(instrument.unit.dimension, unit.dimension));
  const calc = fits ? instrument.calc : undefined;
  const resolution = calc?.resolution ? { resolution: calc.resolution } : {};
  if (!tolerance) return resolution;
  const limits = inUnit(tolerance, unit);
  const { limits: acceptance, failing } = acceptanceLimits({ limits, decision, ...(calc ? { instrument: calc } : {}) });
  if (!acceptance) reportEmpty(scene, judged, { with: instrument?.resolved.id });
  return {
    ...(acceptance ? { acceptance } : {}),
    ...(failing ? { failing } : {}),
    ...resolution,
    ...(calc ? { uncertainty: atEnds(tolerance, (end) => expandedUncertainty(calc, end)) } : {}),
  };
}

function atEnds({ low, high }: Limits, of: (end: Rational) => Rational): NonNullable<InUse['uncertainty']> {
  return { ...(low ? { low: of(low) } : {}), ...(high ? { high: of(high) } : {}) };
}

/** The limits in use of a derived value: its tolerance less the uncertainty that its inputs bring (first order, GUM 5.1). */
export function acceptDerived(scene: Scene, judged: Judged, derivation: Derivation): InUse {
  const { tolerance, unit, decision } = judged;
  const step = coarsestStep(derivation, unit);
  const resolution = step ? { resolution: step } : {};
  if (!tolerance) return resolution;
  const expanded = propagateUncertainty(derivation);
  const limits = inUnit(tolerance, unit);
  const guard = decision === 'simple' ? undefined : expanded;
  const acceptance = moveEnds(limits, { by: guard, step, inward: true });
  const failing = decision === 'three-zone' ? moveEnds(limits, { by: expanded, step, inward: false }) : undefined;
  if (!acceptance) reportEmpty(scene, judged, { with: undefined });
  return {
    ...(acceptance ? { acceptance } : {}),
    ...(failing ? { failing } : {}),
    ...resolution,
    ...(expanded ? { uncertainty: atEnds(tolerance, () => expanded) } : {}),
  };
}

/** The coarsest step of the inputs that measure the same; it is the last digit that the result can have. */
function coarsestStep(derivation: Derivation, unit: Unit): Rational | undefined {
  const steps = derivation.inputs.flatMap(({ value }) =>
    value.resolution && sameDimension(value.unit.dimension, unit.dimension) ? [value.resolution] : [],
  );
  return steps.length > 0 ? steps.reduce(larger) : undefined;
}

interface Move {
  readonly by: Rational | undefined;
  /** The ends come to lie on multiples of it, counted from the unit's zero. */
  readonly step: Rational | undefined;
  readonly inward: boolean;
}

function moveEnds(limits: Limits, { by, step, inward }: Move): Limits | undefined {
  const { unit } = limits;
  const zero = unit.offset ?? { num: 0n, den: 1n };
  const settle = (end: Rational, rounding: 'up' | 'down'): Rational =>
    step ? add(zero, toMultiple(subtract(end, zero), step, rounding)) : end;
  const shifted = (end: Rational, upward: boolean): Rational =>
    by ? (upward ? add(end, by) : subtract(end, by)) : end;
  const low = limits.low && settle(shifted(limits.low, inward), inward ? 'up' : 'down');
  const high = limits.high && settle(shifted(limits.high, !inward), inward ? 'down' : 'up');
  if (low && high && compare(low, high) > 0) return undefined;
  const resolution = step ? divide(step, unit.factor) : by ? finer(limits, by) : limits.resolution;
  return { ...limits, ...(low ? { low } : {}), ...(high ? { high } : {}), resolution };
}

// without a step to round to, the ends are shown to a hundredth of what was taken off
function finer(limits: Limits, by: Rational): Rational {
  const wanted = divide(by, multiply(limits.unit.factor, { num: 100n, den: 1n }));
  let resolution = limits.resolution;
  while (compare(resolution, wanted) > 0 && wanted.num > 0n) resolution = divide(resolution, { num: 10n, den: 1n });
  return resolution;
}

/** The same limits as they are read in another unit; their ends stay where they are. */
export function inUnit(limits: Limits, unit: Unit): Limits {
  if (isSameSize(limits.unit, unit) || unit.pi !== limits.unit.pi) return { ...limits };
  return { ...limits, unit, resolution: divide(multiply(limits.resolution, limits.unit.factor), unit.factor) };
}

function reportEmpty(scene: Scene, judged: Judged, { with: instrument }: { readonly with: string | undefined }): void {
  const { source, tolerance, at } = judged;
  const by = instrument === undefined ? 'the uncertainty of its inputs' : `the uncertainty of \`${instrument}\``;
  scene.report({
    code: 'acceptance-empty',
    message: `Nothing is left of the limits ${tolerance ? formatLimits(tolerance) : ''} of \`${source.id}\` after ${by} is taken off`,
    at,
    help: 'Read it with a better instrument, or widen the limits if they may be wider.',
    note: 'Under a guard band the limits in use are the book limits less the uncertainty on each side (JCGM 106, 8.3).',
  });
}
