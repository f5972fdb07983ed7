// The parsed form of expressions and limits. Offsets count in the text that was parsed.

import type { Rational } from '../rational.js';
import type { Unit } from '../unit.js';

interface Node {
  readonly start: number;
  readonly end: number;
}

/** `3.60 V`, `17 ft 5 in`, `1/8 in`, `12`: one number as written. A temperature point keeps its own scale. */
export interface NumberExpr extends Node {
  readonly kind: 'number';
  /** In `unit` (in its last unit where several are written), exact. */
  readonly value: Rational;
  /** Missing where none is written; the parser has then already given it the unit of the last number of its limits, if any. */
  readonly unit?: Unit;
  /** The unit of the last written digit, in `unit`: 1/100 for `3.60`, 1/8 for `3 1/8`. */
  readonly resolution: Rational;
}

export type Operator = '+' | '-' | '*' | '/' | '^';

export type Expr =
  | NumberExpr
  | (Node & { readonly kind: 'name'; readonly path: string })
  | (Node & { readonly kind: 'pi' })
  | (Node & { readonly kind: 'negate'; readonly of: Expr })
  /** `tight`: a hyphen without spaces between two names, which a reader may take for one name. */
  | (Node & {
      readonly kind: 'binary';
      readonly op: Operator;
      readonly left: Expr;
      readonly right: Expr;
      readonly tight?: true;
    })
  | (Node & { readonly kind: 'call'; readonly name: string; readonly args: readonly Expr[] })
  /** `(20 ± 0.25)`: in `calc` only. `percent` where the tolerance is of the middle. */
  | (Node & {
      readonly kind: 'around';
      readonly middle: Expr;
      readonly minus: Expr;
      readonly plus: Expr;
      readonly percent: boolean;
    })
  /** `(0 to 1)`: in `calc` only. */
  | (Node & { readonly kind: 'range'; readonly low: Expr; readonly high: Expr })
  /** `(2 + 3) in`: in `calc` only. */
  | (Node & { readonly kind: 'in-unit'; readonly of: Expr; readonly unit: Unit });

/** Limits, or a number, or the name of a parameter that has either: what stands behind `limits`, `value`, a parameter. */
export type LimitsExpr =
  | (Node & { readonly kind: 'range'; readonly low: Expr; readonly high: Expr })
  /** `0.9 ± 0.2 V`, `0.9 +0.3/-0.1 V`, `20 ft ± 2 %`. `percent` where the tolerance is of the nominal. */
  | (Node & {
      readonly kind: 'around';
      readonly nominal: Expr;
      readonly minus: Expr;
      readonly plus: Expr;
      readonly percent: boolean;
    })
  | (Node & { readonly kind: 'at-least'; readonly low: Expr })
  | (Node & { readonly kind: 'at-most'; readonly high: Expr })
  /** A single number or a name: `12`, `header.on_ground`. */
  | (Node & { readonly kind: 'single'; readonly of: Expr });

/** Why a text is no expression; `rewrite` is the whole text as it should be, where that is certain. */
export interface ExpressionFault extends Node {
  readonly message: string;
  readonly help?: string;
  readonly rewrites?: readonly string[];
}

export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly fault: ExpressionFault };
