// Reports what the calculation core costs as ratios in one run. Gates nothing. Needs `npm run build` before.
//   node tests/bench/calc.mjs

import { join } from 'node:path';

const dist = join(import.meta.dirname, '../../dist/calc');
const { findUnit } = await import(join(dist, 'unit.js'));
const { toBase, fromBase } = await import(join(dist, 'conversion.js'));
const { rational } = await import(join(dist, 'rational.js'));
const { parseExpression } = await import(join(dist, 'expression/parse.js'));
const { evaluate } = await import(join(dist, 'expression/evaluate.js'));
const { add, mul, div } = await import(join(dist, 'interval/arithmetic.js'));
const { interval } = await import(join(dist, 'interval/interval.js'));

/** Nanoseconds for one call, the best of five rounds: the others were disturbed. */
function cost(count, work) {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 5; round += 1) {
    const start = performance.now();
    work(count);
    best = Math.min(best, ((performance.now() - start) * 1e6) / count);
  }
  return best;
}

let kept = 0;
const numbers = Float64Array.from({ length: 1024 }, (_, i) => 1 + ((i * 7919) % 997) / 31);
const plain = (work) => (count) => {
  for (let i = 0; i < count; i += 1) kept += work(numbers[i & 1023], numbers[(i + 1) & 1023]);
};
const intervals = Array.from(numbers, (x) => interval(x, x + 0.125));
const bounded = (work) => (count) => {
  for (let i = 0; i < count; i += 1) kept += work(intervals[i & 1023], intervals[(i + 1) & 1023]).low;
};

const rows = [];
for (const [name, ours, theirs] of [
  ['add', add, (a, b) => a + b],
  ['multiply', mul, (a, b) => a * b],
  ['divide', div, (a, b) => a / b],
]) {
  const [fast, slow] = [cost(2_000_000, plain(theirs)), cost(1_000_000, bounded(ours))];
  rows.push([`interval ${name}`, `${(slow / fast).toFixed(1)} times plain floats`, `${slow.toFixed(0)} ns`]);
}

const [inch, metre] = [findUnit('in'), findUnit('m')];
const conversion = cost(1_000_000, (count) => {
  for (let i = 0; i < count; i += 1) kept += Number(fromBase(toBase(rational(i & 1023), inch), metre).num);
});
const multiplication = cost(
  1_000_000,
  plain((a, b) => a * b),
);
rows.push([
  'unit conversion, exact',
  `${(conversion / multiplication).toFixed(0)} times a multiplication`,
  `${conversion.toFixed(0)} ns`,
]);

const texts = ['a - b', '0.72 * s to 0.84 * s', 'rows * spacing', '(shown - scale) / scale', 'sqrt(a ^ 2 + b ^ 2)'];
const expressions = texts.filter((text) => parseExpression(text).ok);
const parsing = cost(100_000, (count) => {
  for (let i = 0; i < count; i += 1) kept += parseExpression(expressions[i % expressions.length]).ok ? 1 : 0;
});
const parsed = expressions.map((text) => parseExpression(text).value);
const one = { low: rational(7, 2), high: rational(7, 2) };
const evaluating = cost(20_000, (count) => {
  for (let i = 0; i < count; i += 1) kept += evaluate(parsed[i % parsed.length], () => one).ok ? 1 : 0;
});
const json = cost(100_000, (count) => {
  for (let i = 0; i < count; i += 1) kept += JSON.parse('{"a":[1,2,3],"b":"c"}').a.length;
});
rows.push([
  'parsing an expression',
  `${(parsing / json).toFixed(1)} times a small JSON.parse`,
  `${(parsing / 1000).toFixed(1)} µs`,
]);
rows.push([
  'evaluating it exactly',
  `${(evaluating / json).toFixed(1)} times a small JSON.parse`,
  `${(evaluating / 1000).toFixed(1)} µs`,
]);

for (const [name, ratio, absolute] of rows)
  process.stdout.write(`${name.padEnd(24)} ${ratio.padEnd(32)} ${absolute}\n`);
if (!Number.isFinite(kept)) throw new Error('A result was lost');
