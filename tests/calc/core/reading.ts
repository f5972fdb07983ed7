// Short ways to read texts in the tests of the core; each throws where a text is wrong that a test takes to be right.

import type { Expr, ExpressionFault, LimitsExpr, Parsed } from '../../../src/calc/expression/ast.js';
import { parseExpression, parseLimits } from '../../../src/calc/expression/parse.js';
import type { Limits } from '../../../src/calc/limits.js';
import type { Enclosure, Rational } from '../../../src/calc/rational.js';
import { fromDecimal, rational } from '../../../src/calc/rational.js';
import { resolveLimits } from '../../../src/calc/resolve-limits.js';
import type { Unit } from '../../../src/calc/unit.js';
import { findUnit } from '../../../src/calc/unit.js';

export const settings = { seed: 20260907, numRuns: 300 };

export function right<T>(parsed: Parsed<T>): T {
  if (!parsed.ok) throw new Error(`Unexpected fault: ${parsed.fault.message}`);
  return parsed.value;
}

export function wrong<T>(parsed: Parsed<T>): ExpressionFault {
  if (parsed.ok) throw new Error('Expected a fault');
  return parsed.fault;
}

export const expr = (text: string): Expr => right(parseExpression(text));
export const calcExpr = (text: string): Expr => right(parseExpression(text, { calc: true }));
export const limitsExpr = (text: string): LimitsExpr => right(parseLimits(text));

/** Limits worked out, with parameters given as texts. */
export function limits(text: string, parameters: Readonly<Record<string, string>> = {}): Limits {
  const known = new Map(Object.entries(parameters).map(([name, value]) => [name, limits(value)]));
  return right(resolveLimits(limitsExpr(text), (path) => known.get(path)));
}

export function number(text: string): Rational {
  const value = fromDecimal(text);
  if (!value) throw new Error(`No number: ${text}`);
  return value;
}

export function range(low: string | number, high: string | number): Enclosure {
  return { low: number(String(low)), high: number(String(high)) };
}

export function unit(text: string): Unit {
  const found = findUnit(text);
  if (!found) throw new Error(`No unit: ${text}`);
  return found;
}

/** A fraction as text: `7/2`, `3`. */
export function show(value: Rational | undefined): string {
  return value === undefined ? 'none' : value.den === 1n ? `${value.num}` : `${value.num}/${value.den}`;
}

export { rational };
