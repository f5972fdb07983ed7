// How large a slip in a number is, against the tolerance that it is judged by. What lies inside the tolerance is no slip
// that a check could tell from a right number.

import { sameDimension } from '../calc/dimension.js';
import { parseLimits } from '../calc/expression/parse.js';
import type { Limits } from '../calc/limits.js';
import { absolute, compare, multiply, type Rational, rational, sign, subtract, zero } from '../calc/rational.js';
import { resolveLimits } from '../calc/resolve-limits.js';
import type { Variant } from '../model/resolved.js';
import type { Slip } from './slip.js';

/** Whether the slip moves limits by less than their tolerance, or than four times the uncertainty of the reading. */
export function isSmall(slip: Slip, variants: readonly Variant[]): boolean {
  if ((slip.subject !== 'limits' && slip.subject !== 'parameter') || !slip.text) return false;
  if (slip.kind === 'exchanged-limits' || slip.kind === 'unit-next-door') return false;
  const { source, after } = slip.text;
  const scope = scopeOf(variants);
  const before = limitsIn(source.value, scope);
  const now = limitsIn(after, scope);
  const moved = before && now && movedBy(before, now);
  if (!before || !moved) return false;
  const allowed = [widthOf(before), ...judgedBy(slip, variants)].reduce(largest, zero);
  return compare(moved, allowed) < 0;
}

function limitsIn(text: string, scope: (path: string) => Limits | undefined): Limits | undefined {
  const parsed = parseLimits(text);
  const found = parsed.ok ? resolveLimits(parsed.value, scope) : undefined;
  return found?.ok ? found.value : undefined;
}

/** What parameters come to in the first rig that names them. */
function scopeOf(variants: readonly Variant[]): (path: string) => Limits | undefined {
  return (path) =>
    variants.map(({ procedure }) => procedure.parameters.get(path)).find((limits) => limits !== undefined);
}

/** How far the farther of two ends moved; undefined where one came or went, or the unit is of another kind. */
function movedBy(before: Limits, now: Limits): Rational | undefined {
  if (!sameDimension(before.unit.dimension, now.unit.dimension)) return undefined;
  const ends = [
    [before.low, now.low],
    [before.high, now.high],
  ] as const;
  if (ends.some(([then, end]) => (then === undefined) !== (end === undefined))) return undefined;
  return ends.map(([then, end]) => (then && end ? absolute(subtract(end, then)) : zero)).reduce(largest, zero);
}

function widthOf({ low, high }: Limits): Rational {
  return low && high ? subtract(high, low) : zero;
}

/** The tolerance of the value whose limits or nominal were changed, and four times the uncertainty that it is read with. */
function judgedBy({ at, path }: Slip, variants: readonly Variant[]): readonly Rational[] {
  const id = /^values\/([^/]+)\//.exec(path)?.[1];
  if (id === undefined) return [];
  const values = variants.flatMap(({ procedure }) =>
    procedure.source.file === at.file ? procedure.values.filter((value) => isCalled(value.id, id)) : [],
  );
  return values.flatMap(({ tolerance, uncertainty }) => [
    ...(tolerance && path.endsWith('/nominal') ? [widthOf(tolerance)] : []),
    ...[uncertainty?.low, uncertainty?.high].flatMap((u) => (u && sign(u) > 0 ? [multiply(u, rational(4))] : [])),
  ]);
}

/** `ground_left` is a value that was written as `ground_{side}`. */
function isCalled(id: string, written: string): boolean {
  const [start = '', end] = written.split(/\{[^}]*\}/);
  return end === undefined ? id === written : id.startsWith(start) && id.endsWith(end);
}

function largest(a: Rational, b: Rational): Rational {
  return compare(a, b) >= 0 ? a : b;
}
