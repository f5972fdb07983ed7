// Works out the formulas and units of a calculator, once for the page; a wrong one is ours and throws.

import { dimensionOf } from '../expression/dimensions.js';
import { parseExpression } from '../expression/parse.js';
import type { Unit } from '../unit.js';
import { findUnit, isConvertible, noUnit } from '../unit.js';
import type { Compiled, CompiledBound, CompiledField } from './calculate.js';
import type { Bounds, Calculator, Field } from './definitions.js';
import { readNumber } from './read-number.js';

/** A calculator with everything that its form needs. Throws where a formula does not give what its units measure. */
export function compileCalculator({ id, fields, outcomes }: Calculator): Compiled {
  const compiled = fields.map(compileField);
  const shapes = new Map(compiled.map(({ name, units }) => [name, units[0] ?? noUnit]));
  return {
    id,
    fields: compiled,
    outcomes: outcomes.map(({ name, formula, units: symbols }) => {
      const parsed = parseExpression(formula);
      if (!parsed.ok) throw new Error(`${formula}: ${parsed.fault.message}`);
      const units = symbols.map(unitOf);
      const shape = dimensionOf(parsed.value, (path) => shapes.get(path));
      if (!shape.ok) throw new Error(`${formula}: ${shape.fault.message}`);
      if (units.some((unit) => !isConvertible(unit, { ...noUnit, ...shape.value })))
        throw new Error(`${formula} is shown in a unit of something else`);
      return { name, expr: parsed.value, units };
    }),
  };
}

function compileField({ name, units: symbols, example, bounds, notAbove }: Field): CompiledField {
  const units = symbols.map(unitOf);
  return {
    name,
    example,
    units,
    ...(bounds && { bounds: compileBounds(bounds, units[0] ?? noUnit) }),
    ...(notAbove !== undefined && { notAbove }),
  };
}

function compileBounds(bounds: Bounds, unit: Unit): readonly CompiledBound[] {
  return Object.entries(bounds).map(([kind, text]) => {
    const at = readNumber(text, unit)?.low;
    if (!at) throw new Error(`No number: ${text}`);
    const isBare = at.num === 0n || unit.symbol === '';
    return { kind: kind as keyof Bounds, at, text: isBare ? text : `${text}\u00a0${unit.symbol}` };
  });
}

function unitOf(symbol: string): Unit {
  const unit = symbol === '' ? noUnit : findUnit(symbol);
  if (!unit) throw new Error(`No unit: ${symbol}`);
  return unit;
}
