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
const numbers = Float64Array.from({ length: 1025 }, (_, i) => 1 + ((i * 7919) % 997) / 31);
const intervals = Array.from(numbers, (x) => interval(x, x + 0.125));
const rows = [];

// Each loop is a function of its own, so that an engine compiles each for what it does: a loop that is shared by several
// operations is slow for all of them, and makes any ratio look good; so does a sum that every function may change.
const loops = {
  add: {
    floats: (n) => {
      let sum = 0;
      for (let i = 0; i < n; i += 1) sum += numbers[i & 1023] + numbers[(i & 1023) + 1];
      kept += sum;
    },
    pairs: (n) => {
      let sum = 0;
      for (let i = 0; i < n; i += 1) sum += plainAdd(intervals[i & 1023], intervals[(i & 1023) + 1]).low;
      kept += sum;
    },
    bounded: (n) => {
      let sum = 0;
      for (let i = 0; i < n; i += 1) sum += add(intervals[i & 1023], intervals[(i & 1023) + 1]).low;
      kept += sum;
    },
  },
  multiply: {
    floats: (n) => {
      let sum = 0;
      for (let i = 0; i < n; i += 1) sum += numbers[i & 1023] * numbers[(i & 1023) + 1];
      kept += sum;
    },
    pairs: (n) => {
      let sum = 0;
      for (let i = 0; i < n; i += 1) sum += plainMultiply(intervals[i & 1023], intervals[(i & 1023) + 1]).low;
      kept += sum;
    },
    bounded: (n) => {
      let sum = 0;
      for (let i = 0; i < n; i += 1) sum += mul(intervals[i & 1023], intervals[(i & 1023) + 1]).low;
      kept += sum;
    },
  },
  divide: {
    floats: (n) => {
      let sum = 0;
      for (let i = 0; i < n; i += 1) sum += numbers[i & 1023] / numbers[(i & 1023) + 1];
      kept += sum;
    },
    pairs: (n) => {
      let sum = 0;
      for (let i = 0; i < n; i += 1) sum += plainDivide(intervals[i & 1023], intervals[(i & 1023) + 1]).low;
      kept += sum;
    },
    bounded: (n) => {
      let sum = 0;
      for (let i = 0; i < n; i += 1) sum += div(intervals[i & 1023], intervals[(i & 1023) + 1]).low;
      kept += sum;
    },
  },
};

// what interval arithmetic costs that rounds to nearest and so bounds nothing
function plainAdd(a, b) {
  return { low: a.low + b.low, high: a.high + b.high };
}
function plainMultiply(a, b) {
  const [p, q, r, s] = [a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high];
  return { low: Math.min(p, q, r, s), high: Math.max(p, q, r, s) };
}
function plainDivide(a, b) {
  const [p, q, r, s] = [a.low / b.low, a.low / b.high, a.high / b.low, a.high / b.high];
  return { low: Math.min(p, q, r, s), high: Math.max(p, q, r, s) };
}

for (const [name, { floats, pairs, bounded }] of Object.entries(loops)) {
  const [bare, paired, ours] = [cost(1_000_000, floats), cost(1_000_000, pairs), cost(1_000_000, bounded)];
  const ratio = `${(ours / bare).toFixed(1)} times bare floats, ${(ours / paired).toFixed(1)} unrounded pairs`;
  rows.push([`interval ${name}`, ratio, `${ours.toFixed(0)} ns`]);
}

const [inch, metre] = [findUnit('in'), findUnit('m')];
const conversion = cost(1_000_000, (count) => {
  for (let i = 0; i < count; i += 1) kept += Number(fromBase(toBase(rational(i & 1023), inch), metre).num);
});
const multiplication = cost(1_000_000, loops.multiply.floats);
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
  process.stdout.write(`${name.padEnd(24)} ${ratio.padEnd(46)} ${absolute}\n`);
if (!Number.isFinite(kept)) throw new Error('A result was lost');
