// What to do where two dimensions clash by an angle alone, or by bushels.

import { type Dimension, dimension, divideDimensions, isDimensionless, raiseDimension } from '../dimension.js';
import type { Expr, LimitsExpr } from './ast.js';

interface Dimensioned {
  readonly dimension: Dimension;
}

const angle = dimension({ angle: 1 });
/** What to do where two dimensions differ by an angle alone, as a force times an arm and an arc do, or by bushels. */
export function adviseDimension(a: Dimensioned, b: Dimensioned): { help?: string } {
  const ratio = divideDimensions(a.dimension, b.dimension);
  if ((ratio[8] ?? 0) !== 0) {
    return {
      help: 'A bushel is a count of its crop: multiply or divide by the legal mass of one, as in `56 lb/bu`; as a volume write 2150.42 in^3.',
    };
  }
  const off = angleBetween(a, b);
  return off === undefined ? {} : { help: adviseAngle(off) };
}

/** By which power of an angle one is more than the other, where that is all that they differ by. */
function angleBetween(a: Dimensioned, b: Dimensioned): number | undefined {
  const ratio = divideDimensions(a.dimension, b.dimension);
  const off = ratio[7] ?? 0;
  return off !== 0 && isDimensionless(divideDimensions(ratio, raiseDimension(angle, off))) ? off : undefined;
}

function adviseAngle(off: number, what = ''): string {
  const how = off > 0 ? 'divide' : 'multiply';
  return `Angle is a dimension of its own: ${how} ${what}by \`1 rad\` where an arc, a rolling speed or the power of a torque is meant, or by \`1 rev\` where \`pi\` stands in the formula already.`;
}

/** Numbers that are written as they are get no radian: it is the formula that they are limits of which lacks one, or has it. */
export function adviseLimits(
  limits: LimitsExpr,
  found: Dimensioned,
  expected: Dimensioned & { readonly isWorkedOut?: boolean },
): { help?: string } {
  const isWritten = endsOf(limits).every(({ kind }) => kind === 'number' || kind === 'negate' || kind === 'name');
  if (!isWritten) return adviseDimension(found, expected);
  const off = angleBetween(found, expected);
  if (off === undefined) return adviseDimension(found, expected);
  if (!expected.isWorkedOut) return {};
  return { help: adviseAngle(-off, 'what these are the limits of ') };
}

function endsOf(limits: LimitsExpr): readonly Expr[] {
  switch (limits.kind) {
    case 'range':
      return [limits.low, limits.high];
    case 'around':
      return [limits.nominal, limits.minus, limits.plus];
    case 'at-least':
      return [limits.low];
    case 'at-most':
      return [limits.high];
    case 'single':
      return [limits.of];
  }
}
