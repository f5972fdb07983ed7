// The grammar of expressions against a reference written another way: two stacks (E. W. Dijkstra's shunting yard) over the
// text itself and fractions of its own, on random texts. Shares nothing with the parser and evaluator under test.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dimensionOf } from '../../../src/calc/expression/dimensions.js';
import { evaluate } from '../../../src/calc/expression/evaluate.js';
import { parseExpression } from '../../../src/calc/expression/parse.js';
import { noUnit } from '../../../src/calc/unit.js';
import { compare, type Fraction, minus, over, plus, times } from '../interval/exact.js';
import { rational, settings } from './reading.js';

const whole = (n: number): Fraction => ({ top: BigInt(n), bottom: 1n });
const names: Readonly<Record<string, Fraction>> = {
  a: { top: 7n, bottom: 2n },
  b: { top: -3n, bottom: 4n },
  nothing: whole(0),
};

/** No value: a division by zero, or zero to a power that is not above zero. */
class NoValue extends Error {}

/** Numbers that this slow reference would take too long over. */
class TooLong extends Error {}

function divide(a: Fraction, b: Fraction): Fraction {
  if (b.top === 0n) throw new NoValue();
  return over(a, b);
}

function raise(a: Fraction, exponent: Fraction): Fraction {
  if (exponent.top % exponent.bottom !== 0n) throw new Error('The generator made a broken power');
  const power = exponent.top / exponent.bottom;
  if (power <= 0n && a.top === 0n) throw new NoValue();
  let result = whole(1);
  for (let i = 0n; i < (power < 0n ? -power : power); i += 1n) {
    result = times(result, a);
    if (result.top.toString(16).length + result.bottom.toString(16).length > 400) throw new TooLong();
  }
  return power < 0n ? divide(whole(1), result) : result;
}

const smaller = (a: Fraction, b: Fraction): Fraction => (compare(a, b) <= 0 ? a : b);
const larger = (a: Fraction, b: Fraction): Fraction => (compare(a, b) >= 0 ? a : b);
const total = (all: readonly Fraction[]): Fraction => all.reduce(plus, whole(0));

const functions: Readonly<Record<string, (all: readonly Fraction[]) => Fraction>> = {
  abs: ([x = whole(0)]) => larger(x, minus(whole(0), x)),
  min: (all) => all.reduce(smaller),
  max: (all) => all.reduce(larger),
  sum: total,
  mean: (all) => divide(total(all), whole(all.length)),
  count: (all) => whole(all.length),
};

const operators: Readonly<Record<string, { strength: number; run: (a: Fraction, b: Fraction) => Fraction }>> = {
  '+': { strength: 1, run: plus },
  '-': { strength: 1, run: minus },
  '*': { strength: 2, run: times },
  '/': { strength: 2, run: divide },
  // a sign in front: weaker than a power, stronger than a product
  sign: { strength: 3, run: (_, b) => minus(whole(0), b) },
  '^': { strength: 4, run: raise },
};

// `3 1/8`, `1/8`, `2.50`, with a percent sign or ppm
const numberAt = /^(?:(\d+) (?=\d+\/\d+(?![\d.])))?(\d+)(?:\.(\d+)|\/(\d+)(?![\d.]))?(?: (%|ppm))?/;

function readNumber(found: RegExpExecArray): Fraction {
  const [, before = '0', digits = '0', decimals = '', below = '1', unit] = found;
  const part = decimals === '' ? { top: BigInt(digits), bottom: BigInt(below) } : whole(0);
  const decimal = decimals === '' ? part : { top: BigInt(digits + decimals), bottom: 10n ** BigInt(decimals.length) };
  if (decimal.bottom === 0n) throw new NoValue();
  const value = plus(whole(Number(before)), decimal);
  const scale = unit === '%' ? 100n : unit === 'ppm' ? 1_000_000n : 1n;
  return { top: value.top, bottom: value.bottom * scale };
}

/** The value of a text by two stacks. Throws `NoValue` where it has none. */
function reference(text: string): Fraction {
  const values: Fraction[] = [];
  const waiting: string[] = [];
  const counts: number[] = [];
  const reduce = (): void => {
    const name = waiting.pop() ?? '';
    const right = values.pop() ?? whole(0);
    const left = name === 'sign' ? whole(0) : (values.pop() ?? whole(0));
    values.push(operators[name]?.run(left, right) ?? whole(0));
  };
  const reduceTo = (strength: number): void => {
    while ((operators[waiting.at(-1) ?? '']?.strength ?? 0) >= strength) reduce();
  };
  const close = (): void => {
    reduceTo(1);
    waiting.pop();
    const run = functions[waiting.at(-1) ?? ''];
    const count = counts.pop() ?? 1;
    if (!run) return;
    waiting.pop();
    values.push(run(values.splice(values.length - count, count)));
  };
  let expectsValue = true;
  for (let rest = text.trim(); rest !== ''; rest = rest.trimStart()) {
    const number: RegExpExecArray | null = expectsValue ? numberAt.exec(rest) : null;
    const word = /^[a-z]+/.exec(rest)?.[0];
    const sign = rest[0] ?? '';
    rest = rest.slice((number?.[0] ?? word ?? sign).length);
    if (number) values.push(readNumber(number));
    else if (word && functions[word]) waiting.push(word);
    else if (word) values.push(names[word] ?? whole(0));
    else if (sign === '(') {
      waiting.push('(');
      counts.push(1);
    } else if (sign === ')') close();
    else if (sign === ',') {
      reduceTo(1);
      counts.push((counts.pop() ?? 0) + 1);
    } else if (expectsValue) waiting.push(...(sign === '-' ? ['sign'] : []));
    else if (!operators[sign]) throw new Error(`No operator: ${sign}`);
    else {
      // powers bind from the right
      reduceTo((operators[sign]?.strength ?? 0) + (sign === '^' ? 1 : 0));
      waiting.push(sign);
    }
    expectsValue = !number && sign !== ')' && !(word && !functions[word]);
  }
  reduceTo(1);
  return values[0] ?? whole(0);
}

/** Texts that have a meaning, as people write them (a power behind a unit is the unit's own, so there is none): with and without spaces, signs in front, fractions, powers of powers. */
const { sum: texts } = fc.letrec<{ atom: string; factor: string; sum: string }>((tie) => ({
  atom: fc.oneof(
    { maxDepth: 3, withCrossShrink: true },
    fc.constantFrom('1', '2', '3', '7', '12', '0.5', '3.60', '1/8', '3 1/8', '15.5 %', '40 ppm', 'a', 'b', 'nothing'),
    tie('sum').map((inner) => `(${inner})`),
    fc
      .tuple(
        fc.constantFrom('min', 'max', 'sum', 'mean', 'count'),
        fc.array(tie('sum'), { minLength: 1, maxLength: 2 }),
      )
      .map(([name, parts]) => `${name}(${parts.join(', ')})`),
    tie('sum').map((inner) => `abs( ${inner} )`),
  ),
  factor: fc
    .tuple(
      fc.constantFrom('', '', '', '-', '+'),
      tie('atom'),
      fc.constantFrom('', '', '', '^2', ' ^ 3', '^-1', '^0', '^2^2', '^-1^2'),
    )
    .map(([sign, atom, power]) => sign + atom + (/(?:%|ppm)$/.test(atom) ? '' : power)),
  sum: fc
    .tuple(
      tie('factor'),
      fc.array(fc.tuple(fc.constantFrom(' + ', ' - ', '*', ' * ', ' / ', '/'), tie('factor')), { maxLength: 2 }),
    )
    .map(([first, rest]) => rest.reduce((text, [operator, factor]) => text + operator + factor, first)),
}));

describe('expressions', () => {
  test('mean what a reference makes of the same text', () => {
    const seen = { values: 0, none: 0, refused: 0 };
    fc.assert(
      fc.property(texts, (text) => {
        const parsed = parseExpression(text);
        if (!parsed.ok) {
          // a fraction beside a power or a slash is refused: people read it both ways. Also what is too long.
          const known = [
            [/\d\/3 1\/8/, /operator is missing/],
            // `+3/-4` is a tolerance
            [/\+ [\d. %pm]+\/ ?-\d/, /Unexpected `\+`/],
          ] as const;
          const isKnown = known.some(([where, said]) => where.test(text) && said.test(parsed.fault.message));
          const message = isKnown ? 'more than one reading' : parsed.fault.message;
          expect(message, text).toMatch(
            /may be one number or a division|at most|longer than|divides by zero|more than/,
          );
          seen.refused += 1;
          return;
        }
        let expected: Fraction | undefined;
        try {
          expected = reference(text);
        } catch (error) {
          if (error instanceof TooLong) return;
          if (!(error instanceof NoValue)) throw error;
        }
        expect(dimensionOf(parsed.value, () => ({ dimension: noUnit.dimension })).ok, text).toBe(true);
        const found = evaluate(parsed.value, (path) => {
          const value = rational(names[path]?.top ?? 0n, names[path]?.bottom ?? 1n);
          return { low: value, high: value };
        });
        seen[expected ? 'values' : 'none'] += 1;
        expect(found.ok, text).toBe(expected !== undefined);
        if (!found.ok || !expected) return;
        const [low, high] = [found.value.low, found.value.high].map(({ num, den }) => ({ top: num, bottom: den }));
        if (!low || !high) throw new Error('No ends');
        expect([compare(low, expected), compare(expected, high)], text).not.toContain(1);
        // exact, but for what does not fit into 512 bits
        const room = times(larger(expected, minus(whole(0), expected)), { top: 1n, bottom: 1n << 400n });
        expect(compare(minus(high, low), room), text).not.toBe(1);
      }),
      { ...settings, numRuns: 1500 },
    );
    expect(seen.values).toBeGreaterThan(600);
    expect(seen.none).toBeGreaterThan(10);
  });

  test('the reference itself reads as mathematics does', () => {
    for (const [text, top, bottom] of [
      ['-2^2', -4n, 1n],
      ['2^3^2', 512n, 1n],
      ['8 / 4 / 2', 1n, 1n],
      ['10 - 4 - 3', 3n, 1n],
      ['2 * -3 ^ 2', -18n, 1n],
      ['3 1/8 + 1/8', 13n, 4n],
      ['mean(1, 2, (3 + 4) * 2)', 17n, 3n],
      ['50 % * 8', 4n, 1n],
    ] as const)
      expect(compare(reference(text), { top, bottom }), text).toBe(0);
  });
});
