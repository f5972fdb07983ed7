// Numbers of a book as written: parsed, with the text they came from.

import type { Expr, LimitsExpr } from '../calc/expression/ast.js';
import type { SourceText, Span } from '../text/source.js';
import type { Choice, Text } from './text.js';

/** An expression and the text it was parsed from; offsets in `expr` count in `source.value`. */
export interface WrittenExpr {
  readonly expr: Expr;
  readonly source: SourceText;
}

/** Limits (or a number, or a name) and the text they were parsed from. */
export interface WrittenLimits {
  readonly expr: LimitsExpr;
  readonly source: SourceText;
}

export type NumberChoice = Choice<WrittenLimits>;

/** A parameter of a machine or header. */
export interface Parameter {
  readonly id: string;
  readonly idAt: Span;
  readonly value: NumberChoice;
  readonly label?: Text;
  readonly origin?: Text;
  readonly at: Span;
}

/** `{ that: working_width, equals: rows * row_spacing, within: 0.5 % }`, or `{ that: on_ground, equals: 3600 to 4200 mV }`. */
export interface Agreement {
  readonly that: WrittenExpr;
  /** One of these two: what it equals, or limits whose ends it has. */
  readonly equals?: WrittenExpr;
  readonly limits?: WrittenLimits;
  readonly within?: WrittenExpr;
  readonly at: Span;
}
