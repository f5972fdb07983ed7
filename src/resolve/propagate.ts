// The uncertainty of a derived value, first order (GUM 5.1): how far each reading that it comes from moves it.

import { largestError } from '../calc/accuracy.js';
import type { Expr } from '../calc/expression/ast.js';
import { evaluate } from '../calc/expression/evaluate.js';
import type { Limits } from '../calc/limits.js';
import {
  absolute,
  add,
  divide,
  fromNumber,
  larger,
  multiply,
  type Rational,
  rational,
  sign,
  subtract,
  toNumber,
  zero,
} from '../calc/rational.js';
import type { BareValue, Derivation } from './derive.js';
import type { FoundInstrument } from './instruments.js';

/** A reading or a ranged parameter at the bottom of a derivation. */
interface Input {
  readonly low: Rational;
  readonly high: Rational;
  readonly instrument?: FoundInstrument;
}

/**
 * U = 2u of a derived value with its inputs in the middle of their limits, rounded up. A largest error e counts e/√3 and a
 * resolution r counts r/√12; readings of one instrument share their errors or not, whichever is worse; a ranged
 * parameter is rectangular. Undefined where an input has no two ends, or nothing says how well it is known.
 */
export function propagateUncertainty(derivation: Derivation): Rational | undefined {
  const inputs = new Map<string, Input>();
  const expr = gatherInputs(derivation, inputs);
  if (!expr) return undefined;
  const middle = new Map([...inputs].map(([path, { low, high }]) => [path, half(add(low, high))]));
  const errors = new Map<FoundInstrument, { shared: Rational; squares: Rational }>();
  let others = zero;
  for (const [path, input] of inputs) {
    const slope = slopeAt(expr, middle, { path, input });
    if (!slope) return undefined;
    if (!input.instrument) {
      const part = multiply(slope, half(subtract(input.high, input.low)));
      others = add(others, multiply(multiply(part, part), rational(1, 3)));
      continue;
    }
    const { calc } = input.instrument;
    const error = multiply(slope, larger(largestError(calc, input.low), largestError(calc, input.high)));
    const sum = errors.get(input.instrument) ?? { shared: zero, squares: zero };
    errors.set(input.instrument, {
      shared: add(sum.shared, error),
      squares: add(sum.squares, multiply(error, error)),
    });
    const step = calc.resolution && sign(calc.accuracy.digits) === 0 ? multiply(slope, calc.resolution) : zero;
    others = add(others, multiply(multiply(step, step), rational(1, 12)));
  }
  const ofErrors = [...errors.values()].map(({ shared, squares }) => larger(multiply(shared, shared), squares));
  const square = ofErrors.reduce((sum, part) => add(sum, multiply(part, rational(1, 3))), others);
  return multiply(rational(2), rootUp(square));
}

/** The expression over readings and parameters alone, with derived inputs put in; its inputs go into `inputs`. */
function gatherInputs(derivation: Derivation, inputs: Map<string, Input>): Expr | undefined {
  const inner = new Map<string, Expr>();
  for (const input of derivation.inputs) {
    if (input.derivation) {
      const expr = gatherInputs(input.derivation, inputs);
      if (!expr) return undefined;
      inner.set(input.value.id, expr);
    } else {
      const range = reachOf(input);
      if (!range) return undefined;
      inputs.set(input.value.id, range);
    }
  }
  for (const [path, { low, high }] of derivation.parameters) {
    if (!low || !high) return undefined;
    inputs.set(path, { low, high });
  }
  return substitute(derivation.expr, inner);
}

function reachOf({ value, instrument }: BareValue): Input | undefined {
  if (!instrument) return undefined;
  const bands: readonly (Limits | undefined)[] = [value.tolerance, value.inside, value.instrument?.range];
  const low = bands.find((band) => band?.low)?.low;
  const high = bands.find((band) => band?.high)?.high;
  return low && high && { low, high, instrument };
}

function substitute(expr: Expr, inner: ReadonlyMap<string, Expr>): Expr {
  switch (expr.kind) {
    case 'name':
      return inner.get(expr.path) ?? expr;
    case 'negate':
    case 'in-unit':
      return { ...expr, of: substitute(expr.of, inner) };
    case 'binary':
      return { ...expr, left: substitute(expr.left, inner), right: substitute(expr.right, inner) };
    case 'call':
      return { ...expr, args: expr.args.map((part) => substitute(part, inner)) };
    case 'around':
      return {
        ...expr,
        middle: substitute(expr.middle, inner),
        minus: substitute(expr.minus, inner),
        plus: substitute(expr.plus, inner),
      };
    case 'range':
      return { ...expr, low: substitute(expr.low, inner), high: substitute(expr.high, inner) };
    default:
      return expr;
  }
}

/** How much the result moves with one input, from a thousandth of its range to either side of the middle. */
function slopeAt(
  expr: Expr,
  middle: ReadonlyMap<string, Rational>,
  { path, input }: { readonly path: string; readonly input: Input },
): Rational | undefined {
  const width = subtract(input.high, input.low);
  if (sign(width) === 0) return zero;
  const step = multiply(width, rational(1, 1000));
  const at = (moved: Rational): Rational | undefined => {
    const value = evaluate(expr, (name) => {
      const point = name === path ? moved : middle.get(name);
      return point && { low: point, high: point };
    });
    return value.ok ? half(add(value.value.low, value.value.high)) : undefined;
  };
  const centre = middle.get(path) ?? input.low;
  const [above, below] = [at(add(centre, step)), at(subtract(centre, step))];
  return above && below && divide(subtract(above, below), multiply(rational(2), step));
}

function half(a: Rational): Rational {
  return multiply(a, rational(1, 2));
}

/** A fraction that is at least the square root, by less than one part in a million million. */
function rootUp(square: Rational): Rational {
  if (sign(square) <= 0) return zero;
  const root = Math.sqrt(toNumber(absolute(square), 'up'));
  return multiply(fromNumber(root), rational(1_000_000_000_001n, 1_000_000_000_000n));
}
