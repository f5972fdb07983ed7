// The limits in use of a check value: its tolerance less the uncertainty of what it is read with.

import { type Acceptance, acceptanceByUncertainty, acceptanceLimits } from '../calc/acceptance.js';
import { expandedUncertainty } from '../calc/accuracy.js';
import type { DecisionRule } from '../calc/decision-rule.js';
import { type DerivedInput, derivedUncertainty } from '../calc/derived-uncertainty.js';
import { sameDimension } from '../calc/dimension.js';
import { formatLimits, formatQuantity } from '../calc/display.js';
import type { Expr } from '../calc/expression/ast.js';
import { substitute } from '../calc/expression/substitute.js';
import { enclosureOf, isSingle, type Limits } from '../calc/limits.js';
import { divide, larger, multiply, type Rational, rational, zero } from '../calc/rational.js';
import { asDifference, isSameSize, type Unit } from '../calc/unit.js';
import type { CheckValue } from '../model/procedure.js';
import type { ResolvedValue } from '../model/resolved.js';
import { leavesOf } from '../model/walk.js';
import type { Span } from '../text/source.js';
import type { BareValue, Derivation } from './derive.js';
import type { FoundInstrument } from './instruments.js';
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
  const fits = instrument && measures(instrument, unit);
  const calc = fits ? instrument.calc : undefined;
  const resolution = calc?.resolution ? { resolution: calc.resolution } : {};
  if (!tolerance) return resolution;
  const limits = inUnit(tolerance, unit);
  const { limits: acceptance, failing } = fits
    ? acceptWith(instrument, limits, decision)
    : { limits, failing: undefined };
  const uncertainty = calc && atEnds(tolerance, (end) => expandedUncertainty(calc, end));
  if (!acceptance) {
    const most = [uncertainty?.low ?? zero, uncertainty?.high ?? zero].reduce(larger);
    reportEmpty(scene, judged, { instrument: instrument?.resolved.id ?? '', uncertainty: most });
  }
  return {
    ...(acceptance ? { acceptance } : {}),
    ...(failing ? { failing } : {}),
    ...resolution,
    ...(uncertainty ? { uncertainty } : {}),
  };
}

// a rule of its own speaks of an instrument that measures something else
function measures(instrument: FoundInstrument, unit: Unit): boolean {
  return !instrument.unit || sameDimension(instrument.unit.dimension, unit.dimension);
}

// many values have the limits of one parameter
function acceptWith({ calc, accepted }: FoundInstrument, limits: Limits, decision: DecisionRule): Acceptance {
  const write = (end: Rational | undefined): string => (end ? `${end.num}/${end.den}` : '');
  const { low, high, nominal, resolution, unit } = limits;
  const key = [decision, unit.symbol, ...[low, high, nominal, resolution].map(write)].join(' ');
  const known = accepted.get(key) ?? acceptanceLimits({ limits, decision, instrument: calc });
  accepted.set(key, known);
  return known;
}

function atEnds({ low, high }: Limits, of: (end: Rational) => Rational): NonNullable<InUse['uncertainty']> {
  return { ...(low ? { low: of(low) } : {}), ...(high ? { high: of(high) } : {}) };
}

/**
 * The limits in use of a derived value: its tolerance less the uncertainty that its inputs bring. Where one of these is read
 * with nothing that says how good it is, the tolerance itself, rounded inward to what the inputs show.
 */
export function acceptDerived(scene: Scene, judged: Judged, derivation: Derivation): InUse {
  const { tolerance, unit, decision } = judged;
  const resolution = coarsestStep(derivation, unit);
  const known = resolution ? { resolution } : {};
  if (!tolerance) return known;
  const inputs = new Map<string, DerivedInput>();
  const expr = gatherInputs(derivation, inputs);
  const uncertainty = expr && derivedUncertainty(expr, inputs);
  const limits = inUnit(tolerance, unit);
  const { limits: acceptance, failing } = acceptanceByUncertainty({
    limits,
    resolution,
    decision,
    uncertainty: uncertainty ?? zero,
  });
  if (!acceptance) reportEmpty(scene, judged, { uncertainty: uncertainty ?? zero });
  return {
    ...(acceptance ? { acceptance } : {}),
    ...(failing ? { failing } : {}),
    ...known,
    ...(uncertainty ? { uncertainty: atEnds(tolerance, () => uncertainty) } : {}),
  };
}

/** The coarsest step of the inputs that measure the same; it is the last digit that the result can have. */
function coarsestStep(derivation: Derivation, unit: Unit): Rational | undefined {
  const steps = derivation.inputs.flatMap(({ value }) =>
    value.resolution && sameDimension(value.unit.dimension, unit.dimension) ? [value.resolution] : [],
  );
  return steps.length > 0 ? steps.reduce(larger) : undefined;
}

/** The expression over readings and parameters alone, with derived inputs put in; its inputs go into `inputs`. */
function gatherInputs(derivation: Derivation, inputs: Map<string, DerivedInput>): Expr | undefined {
  const inner = new Map<string, Expr>();
  for (const input of derivation.inputs) {
    const expr = input.derivation && gatherInputs(input.derivation, inputs);
    const reading = input.derivation ? undefined : readingOf(input);
    if (expr) inner.set(input.value.id, expr);
    else if (reading) inputs.set(input.value.id, reading);
    else return undefined;
  }
  for (const [path, limits] of derivation.parameters) {
    const range = enclosureOf(limits);
    if (!range) return undefined;
    inputs.set(path, { range });
  }
  return substitute(derivation.expr, inner);
}

/** Where a reading may lie while it passes, and what it is read with. */
function readingOf({ value, instrument }: BareValue): DerivedInput | undefined {
  if (!instrument || !measures(instrument, value.unit)) return undefined;
  const bands = [value.tolerance, value.inside, value.instrument?.range];
  const low = bands.find((band) => band?.low)?.low;
  const high = bands.find((band) => band?.high)?.high;
  return low && high && { range: { low, high }, instrument: instrument.calc, instrumentName: instrument.resolved.id };
}

/** The same limits as they are read in another unit; their ends stay where they are. */
export function inUnit(limits: Limits, unit: Unit): Limits {
  if (isSameSize(limits.unit, unit) || unit.pi !== limits.unit.pi) return { ...limits };
  return { ...limits, unit, resolution: divide(multiply(limits.resolution, limits.unit.factor), unit.factor) };
}

interface Taken {
  /** Whose uncertainty it is; missing for what the inputs bring. */
  readonly instrument?: string;
  readonly uncertainty: Rational;
}

function reportEmpty(scene: Scene, judged: Judged, { instrument, uncertainty }: Taken): void {
  const { source, tolerance, unit, at } = judged;
  const resolution = divide(tolerance ? inUnit(tolerance, unit).resolution : rational(1), rational(10));
  const amount = formatQuantity(uncertainty, { unit: asDifference(unit), resolution }, 'up');
  const limits = tolerance ? formatLimits(tolerance) : '';
  const of = instrument === undefined ? 'its inputs' : `\`${instrument}\``;
  const lone = tolerance && isSingle(tolerance);
  const place = instrument === undefined ? undefined : accuracyPlace(scene, instrument);
  const mendIt = instrument === undefined ? '' : `, or mend ${of} in instruments.yaml`;
  scene.report({
    code: 'acceptance-empty',
    message: lone
      ? `Only one value keeps the limits ${limits} of \`${source.id}\`, and no reading is sure of one: the uncertainty of ${of} is ${amount}`
      : `Nothing is left of the limits ${limits} of \`${source.id}\` after the uncertainty of ${of}, ${amount}, is taken off at each end`,
    at,
    ...(place && !lone ? { related: [{ message: `${of} is described here`, at: place }] } : {}),
    help: lone
      ? helpForOne(judged)
      : `Read it with a better instrument, or widen the limits if they may be wider${mendIt}.`,
    note: 'Under a guard band the limits in use are the book limits less the uncertainty on each side (JCGM 106, 8.3).',
  });
}

/** What an instrument is right to, or else all that is said of it. */
function accuracyPlace({ book }: Scene, id: string): Span | undefined {
  const found = book.instruments.get(id);
  const [accuracy] = found?.accuracy ? leavesOf(found.accuracy) : [];
  return accuracy?.at ?? found?.at;
}

function helpForOne({ source, at, tolerance }: Judged): string {
  const both = 'Write both ends, as in `74 to 76 mm`, or the number with its tolerance, as in `75 ± 1 mm`.';
  const written = [...(source.limits ? leavesOf(source.limits) : [])].find((leaf) => leaf.source.at.start === at.start);
  const isPositive = tolerance?.low !== undefined && tolerance.low.num > 0n;
  if (written?.expr.kind !== 'range' || !isPositive) return both;
  return `Did you mean \`-${written.source.value.trim()}\`? A sign is easily lost. ${both}`;
}
