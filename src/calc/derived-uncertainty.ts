// The uncertainty of a value that is calculated from readings, and its acceptance limits. First order (JCGM 100, 5.1):
// each input's error times the largest slope over its range. Bounds are kept on the safe side throughout.

import type { Acceptance } from './acceptance.js';
import { acceptanceByUncertainty } from './acceptance.js';
import type { DecisionRule } from './decision-rule.js';
import { root } from './elementary.js';
import type { Scaled } from './enclosure.js';
import { exactly, multiplyRanges, scaled, withPi } from './enclosure.js';
import type { Expr } from './expression/ast.js';
import { namesIn } from './expression/names.js';
import { cellKey, slopesOf } from './expression/slopes.js';
import type { Instrument } from './instrument.js';
import { countsResolution, errorParts } from './instrument.js';
import type { Limits } from './limits.js';
import type { Enclosure, Rational } from './rational.js';
import { absolute, add, larger, multiply, negate, rational, sign, subtract, zero } from './rational.js';

/** One input of a derived value: a reading by an instrument, or a parameter that is only known to lie in its range. */
export interface DerivedInput {
  /** Where the reading may lie, or the reading itself as a point; base units. */
  readonly range: Enclosure;
  readonly instrument?: Instrument | undefined;
  /** Readings with the same name are taken by the same instrument. */
  readonly instrumentName?: string | undefined;
}

/** The inputs of a derived value by the names in its expression; a column has one for each of its rows. */
export type DerivedInputs = ReadonlyMap<string, DerivedInput | readonly DerivedInput[]>;

interface Effect {
  readonly slope: Scaled;
  readonly input: DerivedInput;
}

/**
 * U = 2u of a derived value, rounded up; undefined where a slope is not bounded over the ranges. Of two readings by one
 * instrument each part of the error counts as shared or as independent, whichever is larger; the resolution is always
 * independent; a parameter that is a range counts as rectangular.
 */
export function derivedUncertainty(expr: Expr, inputs: DerivedInputs): Rational | undefined {
  const used = new Set(namesIn(expr).map(({ path }) => path));
  const single = new Map([...inputs].filter(([path]) => used.has(path)).flatMap(([path, of]) => cellsOf(path, of)));
  const box = new Map([...single].map(([key, { range }]) => [key, range]));
  const slopes = slopesOf(expr, box, (path) => rangesOf(inputs.get(path)));
  const effects: Effect[] = [];
  for (const [key, input] of single) {
    const slope = slopes.get(key);
    if (!slope) return undefined;
    effects.push({ slope, input });
  }
  const squared = [...byInstrument(effects)].map(squaredOfInstrument).reduce(add, zero);
  const rest = effects.map(({ slope, input }) => multiply(squareOf(slope), restSquared(input))).reduce(add, zero);
  return multiply(rational(2), root(add(squared, rest)).high);
}

type Given = DerivedInput | readonly DerivedInput[];

function isColumn(given: Given): given is readonly DerivedInput[] {
  return Array.isArray(given);
}

function cellsOf(path: string, given: Given): readonly (readonly [string, DerivedInput])[] {
  return isColumn(given) ? given.map((cell, row) => [cellKey(path, row), cell]) : [[path, given]];
}

function rangesOf(given: Given | undefined): Enclosure | readonly Enclosure[] | undefined {
  return given && (isColumn(given) ? given.map(({ range }) => range) : given.range);
}

function byInstrument(effects: readonly Effect[]): Iterable<readonly Effect[]> {
  const groups = new Map<string, Effect[]>();
  for (const [i, effect] of effects.entries()) {
    if (!effect.input.instrument) continue;
    const name = effect.input.instrumentName ?? `#${i}`;
    groups.set(name, [...(groups.get(name) ?? []), effect]);
  }
  return groups.values();
}

// u^2 of one instrument's errors: the parts of e add up as they do for one reading, and u = e / sqrt 3
function squaredOfInstrument(effects: readonly Effect[]): Rational {
  const parts = [0, 1, 2, 3].map((part) => larger(sharedError(effects, part), independentError(effects, part)));
  const error = parts.reduce(add);
  return multiply(multiply(error, error), rational(1, 3));
}

// one and the same error in all readings: of the reading it keeps the reading's sign
function sharedError(effects: readonly Effect[], part: number): Rational {
  let sum: Enclosure = { low: zero, high: zero };
  for (const { slope, input } of effects) {
    const effect = withPi(multiplyRanges(slope, errorRange(input, part)), 0);
    sum = { low: add(sum.low, effect.low), high: add(sum.high, effect.high) };
  }
  return larger(absolute(sum.low), absolute(sum.high));
}

function errorRange(input: DerivedInput, part: number): Scaled {
  const { instrument, range } = input;
  if (!instrument) return exactly(zero);
  const [low, high] = [range.low, range.high].map((end) => errorParts(instrument, end)[part] ?? zero) as [
    Rational,
    Rational,
  ];
  if (part !== 0) return exactly(larger(low, high));
  const origin = instrument.unit?.offset ?? zero;
  const signed = (end: Rational, error: Rational): Rational =>
    sign(subtract(end, origin)) < 0 ? negate(error) : error;
  return scaled(signed(range.low, low), signed(range.high, high));
}

function independentError(effects: readonly Effect[], part: number): Rational {
  const squares = effects.map(({ slope, input }) => multiply(squareOf(slope), squareOf(errorRange(input, part))));
  return root(squares.reduce(add, zero)).high;
}

function squareOf(range: Scaled): Rational {
  const { low, high } = withPi(range, 0);
  const size = larger(absolute(low), absolute(high));
  return multiply(size, size);
}

// r^2 / 12 of a reading, a^2 / 3 of a parameter whose half width is a
function restSquared({ instrument, range }: DerivedInput): Rational {
  if (!instrument) {
    const width = subtract(range.high, range.low);
    return multiply(multiply(width, width), rational(1, 12));
  }
  const step = countsResolution(instrument) ? (instrument.resolution ?? zero) : zero;
  return multiply(multiply(step, step), rational(1, 12));
}

/** What is judged: a derived value's limits, what it is calculated from, and by which rule. */
export interface DerivedCase {
  readonly limits: Limits;
  readonly expr: Expr;
  readonly inputs: DerivedInputs;
  readonly decision: DecisionRule;
}

/**
 * The acceptance limits of a derived value, by the largest uncertainty over the ranges of its inputs and on the coarsest
 * of their resolutions. Undefined where the uncertainty is not bounded.
 */
export function derivedAcceptance(of: DerivedCase): Acceptance | undefined {
  const uncertainty = derivedUncertainty(of.expr, of.inputs);
  if (!uncertainty) return undefined;
  return acceptanceByUncertainty({
    limits: of.limits,
    uncertainty,
    resolution: derivedResolution(of.inputs),
    decision: of.decision,
  });
}

/** The coarsest resolution of the inputs, in base units; undefined where none has one. */
export function derivedResolution(inputs: DerivedInputs): Rational | undefined {
  const steps = [...inputs.values()]
    .flat()
    .flatMap(({ instrument }) => (instrument?.resolution ? [instrument.resolution] : []));
  return steps.length > 0 ? steps.reduce(larger) : undefined;
}
