// Which unit the result of an expression is shown in.

import { divideDimensions, isDimensionless, multiplyDimensions, raiseDimension } from './dimension.js';
import { withPi } from './enclosure.js';
import type { Expr } from './expression/ast.js';
import { enclose } from './expression/evaluate.js';
import { partsOf } from './expression/names.js';
import { toNumber } from './rational.js';
import type { Unit } from './unit.js';
import { asDifference, baseUnit, combineUnits, findUnit, noUnit } from './unit.js';

/** The unit that a name is written in. */
export type UnitScope = (path: string) => Unit | undefined;

/**
 * The unit that a result is shown in where none is asked for: that of the quantity it is made of, the product or quotient of
 * those that it is calculated from, or the coherent one of its dimension.
 */
export function unitOfResult(expr: Expr, units: UnitScope): Unit {
  switch (expr.kind) {
    case 'number':
      return expr.unit ? asDifference(expr.unit) : noUnit;
    case 'name':
      return asDifference(units(expr.path) ?? noUnit);
    case 'in-unit':
      return expr.unit;
    case 'binary':
      return unitOfBinary(expr, units);
    case 'call': {
      const of = expr.args[0] ? unitOfResult(expr.args[0], units) : noUnit;
      if (expr.name === 'sqrt') return baseUnit(raiseDimension(of.dimension, 0.5));
      if (expr.name === 'slope' && expr.args[1])
        return combineUnits(of, unitOfResult(expr.args[1], units), '/') ?? noUnit;
      if (/^a(?:sin|cos|tan)$/.test(expr.name)) return findUnit('deg') ?? noUnit;
      return /^(?:sin|cos|tan|count)$/.test(expr.name) ? noUnit : of;
    }
    default: {
      const [first] = partsOf(expr);
      return first ? unitOfResult(first, units) : noUnit;
    }
  }
}

function unitOfBinary(expr: Extract<Expr, { kind: 'binary' }>, units: UnitScope): Unit {
  const left = unitOfResult(expr.left, units);
  if (expr.op === '+' || expr.op === '-') return left;
  if (expr.op === '^') {
    const { low } = withPi(enclose(expr.right, { scope: () => undefined }), 0);
    const dimension = raiseDimension(left.dimension, toNumber(low));
    return findUnit(`${left.symbol}^${low.num}`) ?? baseUnit(dimension);
  }
  const right = unitOfResult(expr.right, units);
  const combine = expr.op === '*' ? multiplyDimensions : divideDimensions;
  const dimension = combine(left.dimension, right.dimension);
  return isDimensionless(dimension) ? noUnit : (combineUnits(left, right, expr.op) ?? baseUnit(dimension));
}
