// What a derived value can come to: its expression over all readings that its inputs may have and still pass.

import type { Enclosure } from '../../calc/enclosure.js';
import type { ExpressionFault, Parsed } from '../../calc/expression/ast.js';
import { rangeOf, type SharpRange } from '../../calc/expression/range.js';
import { enclosureOf, type Limits } from '../../calc/limits.js';
import { compare } from '../../calc/rational.js';
import type { ResolvedProcedure, ResolvedValue } from '../../model/resolved.js';

/** Which limits the inputs are held to: as the book has them, or as they are used. */
export type Kind = 'tolerance' | 'acceptance';

/**
 * Why a derived value has none for readings that its inputs may have and still pass, as the book has their limits. Nothing
 * is said where an input is not limited on both sides: what an instrument could read at the most is no good reading.
 */
export function derivedFault(value: ResolvedValue, procedure: ResolvedProcedure): ExpressionFault | undefined {
  const inputs = procedure.values.filter(({ id }) => value.derived?.inputs.includes(id));
  if (!inputs.every(({ tolerance }) => tolerance?.low && tolerance.high)) return undefined;
  const range = rangeWithin(value, procedure, 'tolerance');
  return range?.ok === false ? range.fault : undefined;
}

/** The range of a derived value, or nothing where an input has no two ends or the range could not be found. */
export function derivedRange(value: ResolvedValue, procedure: ResolvedProcedure, kind: Kind): SharpRange | undefined {
  const range = rangeWithin(value, procedure, kind);
  return range?.ok ? range.value : undefined;
}

function rangeWithin(value: ResolvedValue, procedure: ResolvedProcedure, kind: Kind): Parsed<SharpRange> | undefined {
  if (!value.derived) return undefined;
  const byId = new Map(procedure.values.map((other) => [other.id, other]));
  const inputs = new Map<string, Enclosure>();
  for (const id of value.derived.inputs) {
    const input = byId.get(id);
    const reach = input && reachOf(input, procedure, kind);
    if (!reach) return undefined;
    inputs.set(id, reach);
  }
  return rangeOf(value.derived.expr, (path) => inputs.get(path) ?? parameterOf(path, procedure));
}

function parameterOf(path: string, procedure: ResolvedProcedure): Enclosure | undefined {
  const limits = procedure.parameters.get(path);
  return limits && enclosureOf(limits);
}

/** All readings of a value that pass: its limits, closed by the sensor's band or the instrument's range where one end is open. */
function reachOf(value: ResolvedValue, procedure: ResolvedProcedure, kind: Kind): Enclosure | undefined {
  const bands = [value[kind] ?? value.tolerance, value.inside, value.instrument?.range];
  const low = bands.map((band) => band?.low).find((end) => end !== undefined);
  const high = bands.map((band) => band?.high).find((end) => end !== undefined);
  if (low && high) return { low, high };
  return derivedRange(value, procedure, kind)?.outer;
}

/** How a derived value's range lies against its limits. */
export interface Verdict {
  /** No reading that passes for its inputs lets it pass. */
  readonly impossible: boolean;
  /** Neither side that it has can fail, whatever its inputs read within their limits. */
  readonly neverFails: boolean;
  /** Exactly one of its two sides can never fail. */
  readonly idle?: 'low' | 'high';
  /** Inputs that pass can still make it fail: shown by a reading, not only by a bound. */
  readonly canFail: boolean;
  readonly range: SharpRange;
  readonly limits: Limits;
}

/** Judges a derived value by one kind of limits; nothing where it has none or its range is not known. */
export function judgeDerived(value: ResolvedValue, procedure: ResolvedProcedure, kind: Kind): Verdict | undefined {
  const limits = value[kind];
  const range = limits && derivedRange(value, procedure, kind);
  if (!limits || !range) return undefined;
  const { outer, attained } = range;
  const idleLow = limits.low !== undefined && compare(limits.low, outer.low) <= 0;
  const idleHigh = limits.high !== undefined && compare(outer.high, limits.high) <= 0;
  const neverFails = (!limits.low || idleLow) && (!limits.high || idleHigh);
  const below = limits.high !== undefined && compare(outer.low, limits.high) > 0;
  const above = limits.low !== undefined && compare(outer.high, limits.low) < 0;
  const fails =
    (limits.low !== undefined && compare(attained.low, limits.low) < 0) ||
    (limits.high !== undefined && compare(attained.high, limits.high) > 0);
  const idle = neverFails || idleLow === idleHigh ? undefined : idleLow ? ('low' as const) : ('high' as const);
  return { impossible: below || above, neverFails, canFail: fails, range, limits, ...(idle ? { idle } : {}) };
}
