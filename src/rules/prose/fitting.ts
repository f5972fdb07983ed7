// How a quantity in words stands to typed limits: the same, within them, or an end of them. Knows nothing of sentences.

import type { Limits } from '../../calc/limits.js';
import { add, compare, equals, type Rational, subtract } from '../../calc/rational.js';
import type { Quantity } from './quantities.js';
import type { Stated } from './stated.js';

/** Whether a quantity is exactly what is typed. */
export function isSame({ low, high }: Limits, quantity: Quantity): boolean {
  return low !== undefined && high !== undefined && equals(low, quantity.low) && equals(high, quantity.high);
}

/** The limits in use of a value lie within its tolerance: they are the same number seen closer. */
export function isCloser(limits: Limits, { kind, limits: all }: Stated): boolean {
  return kind === 'value' && all.some((other) => other !== limits && within(other, limits));
}

function within(outer: Limits, { low, high }: Limits): boolean {
  return (
    (!outer.low || (low !== undefined && compare(outer.low, low) <= 0)) &&
    (!outer.high || (high !== undefined && compare(high, outer.high) <= 0))
  );
}

/** Whether a quantity lies within any of the limits, or is an end or the nominal of them as far as its digits go. */
export function fits({ limits, besides, kind }: Stated, quantity: Quantity): boolean {
  const isExact = kind === 'hold' || kind === 'wait';
  const isEnd = (end: Rational | undefined): boolean =>
    end !== undefined && near(end, quantity.low, quantity.slack) && near(end, quantity.high, quantity.slack);
  return (
    limits.some((one) => holds(one, quantity, isExact ? undefined : quantity.slack)) ||
    [...limits, ...besides].some(({ low, high, nominal }) => [low, high, nominal].some(isEnd)) ||
    besides.some((one) => one.low !== undefined && one.high !== undefined && bothNear(one, quantity))
  );
}

function bothNear({ low, high }: Limits, quantity: Quantity): boolean {
  return (
    low !== undefined &&
    high !== undefined &&
    near(low, quantity.low, quantity.slack) &&
    near(high, quantity.high, quantity.slack)
  );
}

/** Whether a quantity lies within limits; with slack as far as its digits go. */
export function holds({ low, high }: Limits, quantity: Quantity, slack: Rational | undefined): boolean {
  const [from, to] = slack ? [add(quantity.low, slack), subtract(quantity.high, slack)] : [quantity.low, quantity.high];
  return (!low || compare(low, from) <= 0) && (!high || compare(to, high) <= 0);
}

function near(a: Rational, b: Rational, slack: Rational): boolean {
  return compare(a, add(b, slack)) <= 0 && compare(subtract(b, slack), a) <= 0;
}
