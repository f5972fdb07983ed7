// What `stepgauge calc --explain` says beside a result: its dimension, the other system's unit, how sure its ends are, and
// what each ranged input does to it.

import type { Expr } from '../calc/expression/ast.js';
import { describeShape, type Shape } from '../calc/expression/dimensions.js';
import type { SharpRange } from '../calc/expression/range.js';
import { estimateOf, type Sensitivity, sensitivitiesOf } from '../calc/expression/sensitivity.js';
import type { Limits } from '../calc/limits.js';
import { enclosureOf } from '../calc/limits.js';
import { formatExact } from '../calc/precise.js';
import { divide, multiply } from '../calc/rational.js';
import type { Unit } from '../calc/unit.js';
import { noUnit, otherSystemUnit } from '../calc/unit.js';
import { type Estimate, writeEstimate } from '../calc/worksheet/judge.js';

/** What there is to explain of a result. */
export interface Explained {
  readonly shape: Shape;
  readonly unit: Unit;
  readonly range: Partial<SharpRange['outer']>;
  readonly sharp: SharpRange | undefined;
  readonly single: boolean;
}

/** What the ranged inputs do to a result. */
export interface Effects {
  readonly inputs: readonly Sensitivity[];
  /** With all of them as independent errors; missing without one, or where an effect is not bounded. */
  readonly estimate?: Estimate;
}

/** The effects of the names and of the ranges that stand in the expression, which are called by their text. */
export function effectsOf(expr: Expr, text: string, names: ReadonlyMap<string, Limits>): Effects {
  const scope = (path: string): SharpRange['outer'] | undefined => {
    const limits = names.get(path);
    return limits && enclosureOf(limits);
  };
  const inputs = sensitivitiesOf(expr, scope);
  const estimate = inputs.length > 0 ? estimateOf(expr, scope) : undefined;
  return { inputs: inputs.map((one) => ({ ...one, name: textOf(one.name, text) })), ...(estimate && { estimate }) };
}

// `#5` is the range that begins behind the fifth letter
function textOf(name: string, text: string): string {
  if (!name.startsWith('#')) return name;
  const rest = text.slice(Number(name.slice(1)));
  return /^\([^()]*\)/.exec(rest)?.[0] ?? /^[^()]*/.exec(rest)?.[0]?.trim() ?? name;
}

/** The lines below the result. */
export function explain(
  answer: Explained,
  { names, effects }: { readonly names: ReadonlyMap<string, Limits>; readonly effects: Effects },
): readonly string[] {
  const lines = [`dimension: ${describeShape(answer.shape)}`];
  const other = otherSystemUnit(answer.unit);
  if (other) lines.push(`also: ${formatExact(answer.range, other, answer.single)}`);
  if (answer.sharp && !answer.single)
    lines.push(answer.sharp.proved ? 'both ends are reached' : 'the outer bound may be wider than what is reached');
  lines.push(...effects.inputs.map((input) => explainInput(input, answer.unit, names)));
  if (effects.estimate) {
    const { value, uncertainty = '0' } = writeEstimate(effects.estimate, answer.unit);
    const shown = `${value} ± ${uncertainty}`.replaceAll('\u00a0', ' ');
    lines.push(`inputs as independent errors, each rectangular over its range: ${shown} (U = 2u)`);
  }
  return lines;
}

function explainInput({ name, range, slope }: Sensitivity, of: Unit, names: ReadonlyMap<string, Limits>): string {
  const unit = names.get(name)?.unit;
  // a range that stands in the expression shows its numbers itself
  const shown = unit ? `${name} = ${formatExact(range, unit, false)}` : name;
  if (!slope) return `input ${shown}: its effect is not bounded`;
  const scale = perUnit(slope, { of, per: unit ?? noUnit });
  return `input ${shown}: ${formatExact(scale, noUnit, false)}${effectUnit(of, unit ?? noUnit)}`;
}

function effectUnit(of: Unit, per: Unit): string {
  const [above, below] = [of.symbol || '1', per.symbol || '1'];
  return above === '1' && below === '1'
    ? ' for each 1'
    : ` ${above === '1' ? '' : above} for each ${below}`.replace('  ', ' ');
}

function perUnit(slope: SharpRange['outer'], units: { of: Unit; per: Unit }): SharpRange['outer'] {
  const factor = divide(units.per.factor, units.of.factor);
  return { low: multiply(slope.low, factor), high: multiply(slope.high, factor) };
}
