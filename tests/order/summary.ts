// Violations in one line each, to hold against what a test expects.

import type { Variant, World } from '../../src/model/resolved.js';
import { proveVariant } from '../../src/order/prove.js';
import type { OrderResult, Violation } from '../../src/order/result.js';
import { makeProcedure, makeVariant, makeWorld, type ProcedureNotation, type WorldNotation } from './build.js';

/** Proves a procedure given in the notation. */
export function prove(
  world: WorldNotation,
  main: ProcedureNotation,
  ends: Readonly<Record<string, ProcedureNotation>> = {},
): OrderResult {
  const made = Object.fromEntries(Object.entries(ends).map(([end, each]) => [end, makeProcedure(`${end}-run`, each)]));
  return proveFully(makeVariant(makeProcedure('main', main), made), makeWorld(world));
}

/** Proves a variant within a bound that these tests do not meet. */
export function proveFully(variant: Variant, world: World, budget = 500_000): OrderResult {
  return proveVariant(variant, world, { budget });
}

/** `need-not-met 2 lower: engine is off|idle, wanted idle, lost start`. */
export function summarize({ violations }: OrderResult): readonly string[] {
  return violations.map(summarizeOne);
}

function summarizeOne({
  kind,
  place,
  end,
  rule,
  value,
  input,
  callee,
  changed,
  missing,
  cycle,
  trace,
}: Violation): string {
  const facts = missing.map(({ state, person, values, wanted, lost }) => {
    const how = lost.kind === 'start' ? 'start' : `${trace[lost.entry]?.place.step} ${lost.how}`;
    return `${state}${person === undefined ? '' : ` ${person}`} is ${values.join('|')}, wanted ${wanted.join('|')}, lost ${how}`;
  });
  const about = [rule?.id, value, input, callee, changed && `${changed.state} by ${changed.by}`, cycle.join(' ')];
  const head = [kind, place?.number, place?.step, end && `at ${end}`, ...about].filter((part) => part).join(' ');
  return facts.length > 0 ? `${head}: ${facts.join('; ')}` : head;
}

/** The steps of a violation's path: `1 2(outside) 3`. */
export function pathOf({ trace }: Violation): string {
  return trace
    .map(({ place, taken }) => {
      const way =
        taken && taken.branch !== 'next'
          ? `(${taken.branch}${taken.answer ? ` ${taken.answer}` : ''}${taken.elses > 0 ? ' else' : ''})`
          : '';
      return `${place.end ? `${place.end} ` : ''}${place.number}${way}`;
    })
    .join(' ');
}
