// The box that the ranged inputs of an expression span, and how an expression is evaluated over a part of it.

import { isPoint } from '../enclosure.js';
import type { Enclosure } from '../rational.js';
import type { Expr } from './ast.js';
import type { Inputs, ValueScope } from './evaluate.js';
import { writtenRange } from './evaluate.js';
import { partsOf } from './names.js';

/** One input that is a range: a name, or a range written in the expression. The box holds one range for each. */
export type Box = ReadonlyMap<string, Enclosure>;

/** The key of a range that is written in the expression itself. */
export function keyOf(expr: Expr): string {
  return expr.kind === 'name' ? expr.path : `#${expr.start}`;
}

/** The inputs of a walk where each ranged one is narrowed to its range in the box. */
export function inputsIn(box: Box, scope: ValueScope): Inputs {
  return { scope: (path) => box.get(path) ?? scope(path), written: (expr) => box.get(keyOf(expr)) };
}

/** How often each ranged input is used, and its range. */
export function usesOf(expr: Expr, scope: ValueScope): Map<string, { range: Enclosure; count: number }> {
  const uses = new Map<string, { range: Enclosure; count: number }>();
  const visit = (node: Expr): void => {
    const written = node.kind === 'around' || node.kind === 'range';
    const found = node.kind === 'name' ? scope(node.path) : written ? writtenRange(node, { scope }) : undefined;
    if (found && !Array.isArray(found) && !isPoint(found as Enclosure)) {
      const key = keyOf(node);
      uses.set(key, { range: found as Enclosure, count: (uses.get(key)?.count ?? 0) + 1 });
    }
    if (!written) for (const part of partsOf(node)) visit(part);
  };
  visit(expr);
  return uses;
}

/** The ranges of all ranged inputs of an expression. */
export function boxOf(expr: Expr, scope: ValueScope): Box {
  return new Map([...usesOf(expr, scope)].map(([key, { range }]) => [key, range]));
}
