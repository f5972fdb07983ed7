// Bounds over inputs without ends, against values worked out at points, and by hand.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Bounds, boundsOf } from '../../../src/calc/expression/bounds.js';
import { evaluate } from '../../../src/calc/expression/evaluate.js';
import { compare, rational } from '../../../src/calc/rational.js';
import { expr, number, right, settings, show } from './reading.js';

const rows = { low: rational(2), high: rational(3) };

function end(text: string | undefined, side: 'low' | 'high'): Bounds {
  return text === undefined ? {} : { [side]: number(text) };
}

/** The bounds of an expression as text: `0 to ...`; `x` and `y` are columns within what is given. */
function boundsIn(text: string, names: Readonly<Record<string, readonly [low?: string, high?: string]>> = {}): string {
  const known = Object.entries(names).map(
    ([name, [low, high]]) => [name, { ...end(low, 'low'), ...end(high, 'high') }] as const,
  );
  const { low, high } = boundsOf(expr(text), { names: new Map(known), columns: new Set(['x', 'y']), rows });
  return `${low ? show(low) : '...'} to ${high ? show(high) : '...'}`;
}

describe('bounds where inputs may be anything', () => {
  test.each([
    ['max(abs(x))', '0 to ...'],
    ['-max(abs(x))', '... to 0'],
    ['max(x) - min(x)', '0 to ...'],
    ['mean(x) - max(x)', '... to 0'],
    ['max(x) - min(y)', '... to ...'],
    ['max(x * x) + 1', '1 to ...'],
    ['max(x ^ 2)', '0 to ...'],
    ['max(x ^ 3)', '... to ...'],
    ['1 / (max(abs(x)) + 2)', '0 to 1/2'],
    ['mean(cos(x))', '-1 to 1'],
    ['sqrt(max(x))', '0 to ...'],
    ['count(x)', '2 to 3'],
    ['slope(x, y)', '... to ...'],
    ['max(x) / max(abs(x))', '... to ...'],
  ])('%s is %s', (text, bounds) => {
    expect(boundsIn(text)).toBe(bounds);
  });

  test.each([
    ['sum(x)', '2 to 6'],
    ['mean(x) * mean(y)', '... to ...'],
    ['mean(x) * max(abs(y))', '0 to ...'],
    ['max(x, 3)', '3 to 3'],
    ['min(x, y)', '... to 2'],
    ['2 * mean(x) - 1', '1 to 3'],
    ['1 / mean(x)', '1/2 to 1'],
    ['mean(x) ^ -2', '1/4 to 1'],
  ])('%s is %s where x is 1 to 2', (text, bounds) => {
    expect(boundsIn(text, { x: ['1', '2'] })).toBe(bounds);
  });
});

test('no value lies outside the bounds', () => {
  const leaf = fc.constantFrom('max(x)', 'min(x)', 'mean(y)', 'sum(y)', 'abs(mean(x))', '2', '-1.5', 'count(x)');
  const { tree } = fc.letrec<{ tree: string }>((tie) => ({
    tree: fc.oneof(
      { maxDepth: 3, withCrossShrink: true },
      leaf,
      fc.tuple(tie('tree'), fc.constantFrom('+', '-', '*', '/'), tie('tree')).map(([a, op, b]) => `(${a} ${op} ${b})`),
      fc.tuple(tie('tree'), fc.integer({ min: 0, max: 3 })).map(([a, n]) => `(${a}) ^ ${n}`),
      fc.tuple(fc.constantFrom('abs', 'min', 'max'), tie('tree')).map(([name, a]) => `${name}(${a})`),
    ),
  }));
  const cells = fc.array(fc.integer({ min: -4, max: 4 }), { minLength: 2, maxLength: 3 });
  const open = fc.record({ low: fc.boolean(), high: fc.boolean() });
  fc.assert(
    fc.property(tree, cells, cells, open, open, (text, xs, ys, ofX, ofY) => {
      fc.pre(xs.length === ys.length);
      const range = (values: readonly number[], has: { low: boolean; high: boolean }): Bounds => ({
        ...(has.low ? { low: rational(Math.min(...values)) } : {}),
        ...(has.high ? { high: rational(Math.max(...values)) } : {}),
      });
      const names = new Map([
        ['x', range(xs, ofX)],
        ['y', range(ys, ofY)],
      ]);
      const parsed = expr(text);
      const value = evaluate(parsed, (path) =>
        (path === 'x' ? xs : ys).map((cell) => ({ low: rational(cell), high: rational(cell) })),
      );
      fc.pre(value.ok);
      const { low, high } = boundsOf(parsed, { names, columns: new Set(['x', 'y']), rows });
      const at = right(value);
      expect(low === undefined || compare(low, at.low) <= 0, `${text} is at least ${show(low)}`).toBe(true);
      expect(high === undefined || compare(at.high, high) <= 0, `${text} is at most ${show(high)}`).toBe(true);
    }),
    settings,
  );
});
