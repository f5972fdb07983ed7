// Reports how the order proof grows with steps, branches, states, loops and steps in any order, and what a check costs that
// has checked nearly the same book before. Gates nothing. Needs `npm run build` before.
//   node tests/bench/proof.mjs

import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

const root = join(import.meta.dirname, '../..');
const { readBookFolder } = await import(join(root, 'dist/io.js'));
const { makeChecker } = await import(join(root, 'dist/compile.js'));
const { readBook } = await import(join(root, 'dist/read/book.js'));
const { resolveBook } = await import(join(root, 'dist/resolve/resolve.js'));
const { proveVariant } = await import(join(root, 'dist/order/prove.js'));

const numbers = (count) => Array.from({ length: count }, (_, i) => i);

/** A book of one procedure, as texts; `states` and `rules` are lines of their files, `parts` of the procedure. */
function bookOf({ states, physics = [], rules = [], parts }) {
  return new Map(
    Object.entries({
      'book.yaml':
        'title: Bench\nowner: Bench\nphone: "1"\nurl: https://book.example/\nlanguages: [en]\nunits: us\ndecision: simple\nreview-every: 12 months\n',
      'machines/one.yaml': 'name: One\nheaders: [any]\nparameters: {}\n',
      'headers/any.yaml': 'name: Any\ntype: row\nparameters: {}\n',
      'instruments.yaml':
        'display: { label: Display, quantity: voltage, range: 0 to 5 V, resolution: 0.01 V, accuracy: ± 0.02 V, built-in: true, read-at: cab }\n',
      'states.yaml': ['states:', ...states, ...(physics.length > 0 ? ['physics:', ...physics] : []), ''].join('\n'),
      'safety.yaml':
        rules.length > 0
          ? ['rules:', ...rules, ''].join('\n')
          : 'hazards:\n  none-here: { severity: damage, what: It moves., harm: It breaks., avoid: Stand away. }\n',
      'hard.md': [
        '---',
        'title: Hard',
        'kind: setup',
        'summary: Hard.',
        'revision: 1',
        'status: draft',
        'applies: { machine: one }',
        'tools: none',
        'supplies: none',
        'hazards: none',
        'requires: none',
        ...parts,
        'leaves: none',
        '---',
        '',
      ].join('\n'),
    }).map(([path, text]) => [path, { path, text }]),
  );
}

const person = '  person: { label: Person, is: [cab, beside], start: cab }';

/** Steps of which every few ask, states that laws and rules bind together. */
function hard(states, length, branches) {
  const every = Math.floor(length / branches);
  const steps = numbers(length).map((i) => {
    const state = `x${i % states}`;
    if (i % every === every - 1 && i < length - 2) {
      const far = `s${Math.min(length - 1, i + 3)}`;
      return `  - { id: s${i}, ask: Is it so?, answers: { one: { go: s${i + 1}, means: { ${state}: r } }, two: { go: ${far}, means: { ${state}: q } } } }`;
    }
    return `  - { id: s${i}, at: ${i % 9 === 4 ? 'beside' : 'cab'}, do: Turn it., sets: { ${state}: ${'pq'[i % 2]} } }`;
  });
  return bookOf({
    states: [...numbers(states).map((i) => `  x${i}: { label: X, is: [p, q, r] }`), person],
    physics: numbers(states - 1).map((i) => `  - { when: { x${i}: p }, then: { x${i + 1}: [p, q] } }`),
    rules: [
      `  - { id: all, when: { person: beside }, must: { x0: [p, q], x1: [p, q], x2: [p, q], x3: [p, q] }, unchanged: [x${states - 1}], source: bench }`,
    ],
    parts: ['steps:', ...steps],
  });
}

const value = (i) => `  v${i}: { label: V, quantity: voltage, limits: 1 to 2 V, read-with: display, source: bench }`;

/** One after the other: read, turn, read again at most three times. */
function loops(count) {
  return bookOf({
    states: [person],
    parts: [
      'values:',
      ...numbers(count).map(value),
      'adjusters:',
      ...numbers(count).map(
        (i) => `  t${i}: { label: T, range: -9 to 9 deg, smallest: 1 deg, positive: up, moves: { v${i}: 0.1 V/deg } }`,
      ),
      'steps:',
      ...numbers(count).map(
        (i) =>
          `  - { id: r${i}, do: Read it., measure: v${i}, when: { outside: { go: a${i}, at-most: 3, else: call-service } } }`,
      ),
      '  - { id: last, do: Look., then: done }',
      ...numbers(count).map((i) => `  - { id: a${i}, do: Turn it., adjust: t${i}, then: r${i} }`),
    ],
  });
}

/** Steps in any order that read, or that set a state each. */
function anyOrder(count, sets) {
  const what = (i) => (sets ? `sets: { x${i}: p }` : `measure: v${i}, when: { outside: call-service }`);
  return bookOf({
    states: [person, ...(sets ? numbers(count).map((i) => `  x${i}: { label: X, is: [p, q] }`) : [])],
    parts: [
      ...(sets ? [] : ['values:', ...numbers(count).map(value)]),
      'steps:',
      ...numbers(count).map((i) => `  - { id: s${i}, do: Look., ${what(i)} }`),
      `any-order: [[${numbers(count)
        .map((i) => `s${i}`)
        .join(', ')}]]`,
    ],
  });
}

/** Proves the one procedure of a book three times; the best time, and the most memory that this process ever took. */
function report(name, files) {
  const { value: book, diagnostics } = readBook(files, new Set());
  const faults = diagnostics.filter(({ severity }) => severity === 'error');
  if (!book || faults.length > 0) throw new Error(`${name}: ${faults[0]?.message}`);
  const { variants, world } = resolveBook(book).value;
  const [variant] = variants;
  if (!variant) throw new Error(`${name}: nothing to prove`);
  let best = Number.POSITIVE_INFINITY;
  let result;
  for (let round = 0; round < 3; round += 1) {
    const start = performance.now();
    result = proveVariant(variant, world, { budget: 200_000, repairs: false });
    best = Math.min(best, performance.now() - start);
  }
  const memory = Math.round(process.resourceUsage().maxRSS / 1000);
  const end = result.complete ? 'proved' : 'not proved';
  process.stdout.write(
    `${name.padEnd(44)} ${best.toFixed(0).padStart(6)} ms ${String(result.explored).padStart(8)} states  ${memory} MB  ${end}\n`,
  );
}

const sizes = [
  [10, 10, 3],
  [10, 20, 6],
  [10, 40, 12],
  [6, 80, 24],
  [5, 40, 12],
];
const cases = [
  ...sizes.map(([states, length, branches]) => [
    `${length} steps, ${branches} branches, ${states} states`,
    () => hard(states, length, branches),
  ]),
  ...[3, 6, 12, 24].map((count) => [`${count} loops, each three times at most`, () => loops(count)]),
  ...[4, 8, 16, 32].map((count) => [`${count} steps in any order that read`, () => anyOrder(count, false)]),
  ...[4, 8, 12, 16].map((count) => [`${count} steps in any order that set a state each`, () => anyOrder(count, true)]),
];

// each case in a process of its own: what one leaves in memory is not the next one's
const wanted = process.argv[2];
if (wanted !== undefined) {
  const [name, make] = cases[Number(wanted)];
  report(name, make());
  process.exit();
}
for (const [index] of cases.entries()) {
  execFileSync(process.execPath, [import.meta.filename, String(index)], { stdio: 'inherit' });
}

const demo = readBookFolder(join(root, 'procedures'));
const inputOf = (files) => ({ sources: files, figures: new Set(demo.figures.keys()), today: '2026-11-24' });
const edits = ['first-pass/learn-height-range.md', 'machines/tarn-40.yaml', 'states.yaml'];
const check = makeChecker();
const timed = (name, files) => {
  const start = performance.now();
  check(inputOf(files));
  process.stdout.write(`${name.padEnd(44)} ${(performance.now() - start).toFixed(0).padStart(6)} ms\n`);
};
timed('the demo book, checked for the first time', demo.files);
timed('the demo book again, nothing changed', demo.files);
for (const path of edits) {
  const file = demo.files.get(path);
  timed(
    `the demo book, a comment more in ${path.split('/').at(-1)}`,
    new Map(demo.files).set(path, { ...file, text: file.text.replace('\n', ' # more\n') }),
  );
}
