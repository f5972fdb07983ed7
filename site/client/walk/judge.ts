// A reading against its limits, exactly as read: pass, fail, too close to call, or outside what can be read at all.

import { evaluate } from '../../../src/calc/expression/evaluate.js';
import { holdsWithin, type Limits } from '../../../src/calc/limits.js';
import { add, compare, divide, type Rational, rational, subtract } from '../../../src/calc/rational.js';
import type { WalkStep, WalkValue, Way } from '../../../src/emit/walk/walk-shape.js';
import type { ReadingVerdict } from '../job/journal.js';

export interface Judgement {
  readonly verdict: ReadingVerdict;
  readonly side?: 'low' | 'high';
  /** How far beyond the limit that decides, or how far inside the nearer one; base units, never negative. */
  readonly distance?: Rational;
  /** It keeps the book's limit and not the one that the instrument leaves of it. */
  readonly insideTolerance?: true;
}

/** Judges a value in base units by the limits in use. */
export function judge(value: WalkValue, base: Rational): Judgement {
  const { inside, acceptance, failing, tolerance } = value;
  if (inside && !holdsWithin(inside, base)) return beyond('fault', inside, base);
  if (!acceptance) return { verdict: 'recorded' };
  if (holdsWithin(acceptance, base)) return { verdict: 'pass', ...room(acceptance, base) };
  const kept = tolerance && holdsWithin(tolerance, base) ? ({ insideTolerance: true } as const) : {};
  if (failing && holdsWithin(failing, base)) return { ...beyond('unsure', acceptance, base), ...kept };
  return { ...beyond('fail', acceptance, base), ...kept };
}

function beyond(verdict: ReadingVerdict, limits: Limits, base: Rational): Judgement {
  if (limits.low && compare(base, limits.low) < 0)
    return { verdict, side: 'low', distance: subtract(limits.low, base) };
  if (limits.high) return { verdict, side: 'high', distance: subtract(base, limits.high) };
  return { verdict };
}

function room({ low, high }: Limits, base: Rational): { readonly distance?: Rational } {
  const below = low && subtract(base, low);
  const above = high && subtract(high, base);
  if (below && above) return { distance: compare(below, above) < 0 ? below : above };
  const only = below ?? above;
  return only ? { distance: only } : {};
}

/** A derived value from the readings it is made of, base units; undefined while one of these is missing. */
export function derive(value: WalkValue, readings: ReadonlyMap<string, Rational>): Rational | undefined {
  const { derived } = value;
  if (!derived) return undefined;
  const inputs = new Map<string, Rational>();
  for (const [name, key] of Object.entries(derived.inputs)) {
    const reading = readings.get(key);
    if (!reading) return undefined;
    inputs.set(name, reading);
  }
  const result = evaluate(derived.expr, (path) => {
    const known = inputs.get(path) ?? derived.parameters[path];
    return known && { low: known, high: known };
  });
  if (!('value' in result)) return undefined;
  const { low, high } = result.value;
  // both ends are the same but for roots and sines, whose true value lies between two that print alike
  return compare(low, high) === 0 ? low : divide(add(low, high), rational(2));
}

const gravest: readonly ReadingVerdict[] = ['fault', 'fail', 'unsure'];

/** The judgement that decides a step where several values are read: the gravest, the first of its kind. */
export function gravestOf(judged: readonly Judgement[]): Judgement | undefined {
  for (const verdict of gravest) {
    const found = judged.find((one) => one.verdict === verdict);
    if (found) return found;
  }
  return undefined;
}

/** The way that the step gives to such a reading. What it does not tell apart counts as outside, by its side. */
export function wayFor({ when = {} }: WalkStep, { verdict, side }: Judgement): Way | undefined {
  if (verdict === 'pass' || verdict === 'recorded') return undefined;
  const own = verdict === 'fail' ? undefined : when[verdict];
  return own ?? when.outside ?? (side && when[side]);
}
