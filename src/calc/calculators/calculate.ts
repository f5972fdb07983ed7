// Works out a calculator from what was typed: numbers with or without `±`, each with its unit, to values with their
// uncertainty and range. Knows no parser and no table of units: a phone gets both worked out.

import type { Expr, ExpressionFault } from '../expression/ast.js';
import { rangeOf } from '../expression/range.js';
import { estimateOf } from '../expression/sensitivity.js';
import { formatEnclosure } from '../quantity-text.js';
import type { Enclosure, Rational } from '../rational.js';
import { compare, decimalExponent, divide, equals, sign, subtract, tenTo } from '../rational.js';
import type { Unit } from '../unit-type.js';
import { writeEstimate } from '../worksheet/judge.js';
import type { Bounds } from './definitions.js';
import { readNumber } from './read-number.js';

/** A calculator with its formulas and units worked out: plain objects, so that `writePortable` carries it to a phone. */
export interface Compiled {
  readonly id: string;
  readonly fields: readonly CompiledField[];
  readonly outcomes: readonly { readonly name: string; readonly expr: Expr; readonly units: readonly Unit[] }[];
}

/** A field with its bounds as numbers in base units, each beside what it is called in the first unit. */
export interface CompiledField {
  readonly name: string;
  readonly units: readonly Unit[];
  readonly example: string;
  readonly bounds?: readonly CompiledBound[];
  readonly notAbove?: string;
}

/** One end of where a number can lie. */
export interface CompiledBound {
  readonly kind: keyof Bounds;
  readonly at: Rational;
  readonly text: string;
}

/** Why a field gives no number: it cannot be read, lies beyond a bound, or is larger than another field. */
export type FieldFault =
  | { readonly kind: 'unread' }
  | { readonly kind: 'bound'; readonly bound: CompiledBound }
  | { readonly kind: 'larger'; readonly than: string };

/** What was typed into a field, and the symbol of the unit that was chosen for it. */
export interface Typed {
  readonly text: string;
  readonly unit: string;
}

/** One result: its value in each of its units, and where it lies for sure if an input is a range. */
export interface Result {
  readonly name: string;
  readonly values: readonly {
    readonly value: string;
    /** U = 2u with the inputs as independent rectangular errors; missing where no input is a range. */
    readonly uncertainty?: string;
    readonly range?: string;
  }[];
}

/** All results, or what is wrong with the fields, by name; a result without a value has none in its list and says why. */
export interface Calculated {
  readonly faults: ReadonlyMap<string, FieldFault>;
  readonly results: readonly (Result | { readonly name: string; readonly why: ExpressionFault })[];
  /** The fields as they were read, in base units. */
  readonly read: ReadonlyMap<string, Enclosure>;
}

/** Works out a calculator. Fields that are missing count as empty texts. */
export function calculate(calculator: Compiled, typed: ReadonlyMap<string, Typed>): Calculated {
  const faults = new Map<string, FieldFault>();
  const read = new Map<string, Enclosure>();
  for (const { name, units, bounds = [] } of calculator.fields) {
    const { text = '', unit: symbol } = typed.get(name) ?? {};
    const unit = units.find((one) => one.symbol === symbol) ?? units[0];
    const found = unit && readNumber(text, unit);
    if (!found) {
      faults.set(name, { kind: 'unread' });
      continue;
    }
    read.set(name, found);
    const bound = bounds.find((one) => isBeyond(one, found));
    if (bound) faults.set(name, { kind: 'bound', bound });
  }
  for (const { name, notAbove = '' } of calculator.fields) {
    const [own, other] = [read.get(name), read.get(notAbove)];
    if (own && other && compare(own.high, other.high) > 0) faults.set(name, { kind: 'larger', than: notAbove });
  }
  const results = faults.size > 0 ? [] : calculator.outcomes.map((outcome) => workOut(outcome, read));
  return { faults, results, read };
}

/** Whether any of what was typed, the `±` with it, lies beyond an end. */
function isBeyond({ kind, at }: CompiledBound, { low, high }: Enclosure): boolean {
  if (kind === 'least') return compare(low, at) < 0;
  if (kind === 'above') return compare(low, at) <= 0;
  return compare(high, at) > (kind === 'most' ? 0 : -1);
}

/** What a calculator has in it at first. */
export function exampleOf(calculator: Compiled): ReadonlyMap<string, Typed> {
  return new Map(
    calculator.fields.map(({ name, example, units }) => [name, { text: example, unit: units[0]?.symbol ?? '' }]),
  );
}

function workOut(
  { name, expr, units }: Compiled['outcomes'][number],
  read: ReadonlyMap<string, Enclosure>,
): Calculated['results'][number] {
  const scope = (path: string): Enclosure | undefined => read.get(path);
  const range = rangeOf(expr, scope);
  if (!range.ok) return { name, why: range.fault };
  const { outer } = range.value;
  const estimate = estimateOf(expr, scope);
  const values = units.map((unit) => {
    if (equals(outer.low, outer.high) || !estimate) {
      const single = {
        value: outer,
        uncertainty: estimate ? subtract(outer.low, outer.low) : subtract(outer.high, outer.low),
      };
      return { value: trim(writeEstimate(single, unit).value) };
    }
    const { value, uncertainty } = writeEstimate(estimate, unit);
    const text = rangeText(outer, { uncertainty: estimate.uncertainty, unit });
    return { value, ...(uncertainty !== undefined && { uncertainty }), range: text };
  });
  return { name, values };
}

// zeros behind the point say nothing of a number that is exact
function trim(text: string): string {
  return text.replace(/(\.\d*?)0+(?!\d)/, '$1').replace(/\.(?!\d)/, '');
}

function rangeText(range: Enclosure, { uncertainty, unit }: { uncertainty: Rational; unit: Unit }): string {
  const width = divide(uncertainty, unit.factor);
  return formatEnclosure(range, { unit, resolution: sign(width) > 0 ? tenTo(decimalExponent(width) - 1) : tenTo(-3) });
}
