// Texts to expressions and limits.
import type { Expr, LimitsExpr, NumberExpr, Parsed } from './ast.js';

export interface ParseOptions {
  /** Allows `±` and `to` in parentheses and a unit after a parenthesis. */
  readonly calc?: boolean;
  /** Which names exist: `lower-snake` is then understood as one name where it is one. */
  readonly isName?: (path: string) => boolean;
}

/** `rows * row_spacing` */
export function parseExpression(_text: string, _options: ParseOptions = {}): Parsed<Expr> {
  throw new Error('Not ready');
}
/** `3.6 to 4.2 V`, `at least 2.5 V`, a number or a name */
export function parseLimits(_text: string, _options: ParseOptions = {}): Parsed<LimitsExpr> {
  throw new Error('Not ready');
}
/** `0.45 V for 10 deg`, `0.045 V/deg`: `for` divides. */
export function parseEffect(_text: string, _options: ParseOptions = {}): Parsed<Expr> {
  throw new Error('Not ready');
}
/** One number with its unit: `0.5 deg`, `-12 V`, `17 ft 5 in`. */
export function parseQuantity(_text: string): Parsed<NumberExpr> {
  throw new Error('Not ready');
}
/** Why a word cannot be a name (a unit, a function, a keyword, a letter that names have not); undefined where it can. */
export function whyNoName(_word: string): string | undefined {
  throw new Error('Not ready');
}
