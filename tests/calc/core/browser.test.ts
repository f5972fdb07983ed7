// What a procedure page needs of the core: it bundles for a browser, stays small, and works on what was compiled.

import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../../src/calc/expression/evaluate.js';
import { readPortable, writePortable } from '../../../src/calc/portable.js';
import { formatLimits } from '../../../src/calc/quantity-text.js';
import { expr, limits, range, right, settings } from './reading.js';

const calc = join(import.meta.dirname, '../../../src/calc');

async function bundle(lines: readonly string[]): Promise<string> {
  const result = await build({
    stdin: { contents: lines.join('\n'), resolveDir: calc, loader: 'ts' },
    bundle: true,
    minify: true,
    write: false,
    format: 'esm',
    platform: 'browser',
    target: 'es2022',
  });
  return result.outputFiles[0]?.text ?? '';
}

describe('in a browser', () => {
  test('a procedure page needs at most 12 kB', async () => {
    const code = await bundle([
      "export { evaluate } from './expression/evaluate.js';",
      "export { formatLimits, formatQuantity } from './quantity-text.js';",
      "export { holdsWithin } from './limits.js';",
      "export { readPortable } from './portable.js';",
      "export { fromDecimal } from './rational.js';",
      "export { toBase, fromBase } from './conversion.js';",
      "export { acceptanceLimits } from './acceptance.js';",
    ]);
    expect(gzipSync(code, { level: 9 }).length).toBeLessThan(12 * 1024);
    expect(code).not.toMatch(/\bprocess\b|\brequire\(|Math\.(?:sin|cos|tan|pow|exp|log)\b/);
  });

  test('a worksheet on a page needs at most 12 kB', async () => {
    const code = await bundle([
      "export { workOutSheet } from './worksheet/work-out.js';",
      "export { readPortable } from './portable.js';",
    ]);
    expect(gzipSync(code, { level: 9 }).length).toBeLessThan(12 * 1024);
  });

  test.each([
    ['the page of calculators', "import '../../site/client/calculators/main.js';"],
    ['the command line', "export { runCalc } from '../commands/calc.js';"],
  ])('%s needs at most 30 kB', async (_, line) => {
    const code = await bundle([line]);
    expect(gzipSync(code, { level: 9 }).length).toBeLessThan(30 * 1024);
  });
});

describe('compiled expressions and limits', () => {
  test.each(['on_ground - raised', 'max(abs((on_ground - 3 1/8 V) / raised))', '17 ft 5 in + 2 in', 'sin(30 deg) ^ 2'])(
    '%s works the same after the way to a page',
    (text) => {
      const there = readPortable<ReturnType<typeof expr>>(writePortable(expr(text)));
      const scope = (path: string) => (path === 'on_ground' ? range('3.6', '4.2') : range('0.7', '1.1'));
      expect(right(evaluate(there, scope))).toEqual(right(evaluate(expr(text), scope)));
    },
  );

  test('limits keep their text', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -999, max: 999 }),
        fc.integer({ min: 0, max: 999 }),
        fc.constantFrom('V', 'ft', 'degF', 'lb/bu'),
        (low, width, unit) => {
          const of = limits(`${low / 100} to ${(low + width) / 100} ${unit}`);
          expect(formatLimits(readPortable(writePortable(of)))).toBe(formatLimits(of));
        },
      ),
      settings,
    );
  });
});
