// Runs the tests of the calculation core and writes src/calc/README.md from what they noted: each exported function, what
// it was checked against, how often, and the largest deviation seen. Nothing in the table is typed by hand.
// Needs OUTSIDE_VALUES, without which the largest collections are skipped and the table would shrink.

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..', '..');
const calc = join(root, 'src', 'calc');
const folders = ['interval', 'statistics', 'uncertainty', 'adjusters', 'sensors', 'harvest', '', 'expression'];

function readNotes() {
  const folder = mkdtempSync(join(tmpdir(), 'calc-table-'));
  try {
    const run = spawnSync(
      process.execPath,
      [
        join(root, 'node_modules', 'vitest', 'vitest.mjs'),
        'run',
        '--config',
        'tests/vitest.config.ts',
        '--project',
        'node',
        'tests/calc',
      ],
      { cwd: root, env: { ...process.env, CALC_TABLE: folder }, encoding: 'utf8' },
    );
    if (run.status !== 0)
      throw new Error(`The tests of src/calc fail, so there is no table to write.\n${run.stdout}\n${run.stderr}`);
    return readdirSync(folder).flatMap((name) =>
      readFileSync(join(folder, name), 'utf8')
        .trim()
        .split('\n')
        .map((line) => JSON.parse(line)),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Exported functions by name: the file each stands in. A name that stands in two files goes to the first of `folders`. */
function listExports() {
  const files = new Map();
  const sources = readdirSync(calc, { recursive: true })
    .filter((name) => name.endsWith('.ts'))
    .sort();
  const rank = (name) => folders.indexOf(folderOf(name)) + 1 || folders.length + 1;
  for (const name of sources.sort((a, b) => rank(a) - rank(b))) {
    const text = readFileSync(join(calc, name), 'utf8');
    for (const [, exported] of text.matchAll(/^export function (\w+)/gm))
      if (!files.has(exported)) files.set(exported, name);
  }
  return files;
}

function folderOf(file) {
  return file.includes('/') ? file.split('/')[0] : '';
}

/** One significant digit, rounded up, so that the table changes only where the digits do. */
function roundUp(deviation) {
  if (deviation === 0) return '0';
  const power = 10 ** Math.floor(Math.log10(deviation));
  const digit = Math.ceil(deviation / power - 1e-9);
  return Number((digit * power).toPrecision(1)).toString();
}

function sayDeviation({ unit, worst }) {
  if (unit === 'exact') return 'none';
  if (unit === 'correct digits') return `${Math.floor(worst * 10) / 10} digits right`;
  if (unit === 'ulp')
    return worst === 0 ? 'none: the tight ends' : worst === 1 ? 'ends are neighbouring floats' : `${worst} floats wide`;
  if (unit === 'units of the last printed digit') return `${worst.toFixed(2)} of the last printed digit`;
  return `${roundUp(worst)} ${unit}`;
}

function group(notes) {
  const rows = new Map();
  for (const { of, against, deviation, unit } of notes) {
    const key = JSON.stringify([of, against, unit]);
    const row = rows.get(key) ?? { of, against, unit, count: 0, worst: unit === 'correct digits' ? Infinity : 0 };
    row.count += 1;
    row.worst = unit === 'correct digits' ? Math.min(row.worst, deviation) : Math.max(row.worst, deviation);
    rows.set(key, row);
  }
  return [...rows.values()];
}

function byFile(functions) {
  const files = new Map();
  for (const [name, file] of functions) files.set(file, [...(files.get(file) ?? []), name]);
  return [...files].sort(([a], [b]) => (a < b ? -1 : 1));
}

function render(rows, files) {
  const named = rows.map((row) => ({ ...row, file: files.get(row.of.split(':')[0]) }));
  const unknown = named.filter((row) => row.file === undefined);
  if (unknown.length > 0)
    throw new Error(
      `Notes of functions that are not exported: ${[...new Set(unknown.map((row) => row.of))].join(', ')}`,
    );
  const order = (row) =>
    `${String(folders.indexOf(folderOf(row.file)))} ${row.file} ${row.of} ${row.against} ${row.unit}`;
  const sorted = named.sort((a, b) => (order(a) < order(b) ? -1 : 1));
  const checked = new Set(named.map((row) => row.of.split(':')[0]));
  const rest = [...files].filter(([name]) => !checked.has(name));
  return [
    '# What the calculation core was checked against',
    '',
    'Written by `node tests/scripts/write-calc-table.mjs` from what the tests noted; not typed. One row for each function and',
    'source. *Largest deviation* is the worst of all comparisons in the row. Sources marked *(from memory)* were not at hand.',
    '',
    '| function | file | checked against | comparisons | largest deviation |',
    '|---|---|---|---|---|',
    ...sorted.map((row) => `| \`${row.of}\` | ${row.file} | ${row.against} | ${row.count} | ${sayDeviation(row)} |`),
    '',
    '## Exported functions without a row of their own',
    '',
    'Building stones of the above, and functions that tests hold to laws and worked cases (an inverse undoes, bounds bracket',
    'the exact fraction, what cannot be is refused) and to no published number:',
    '',
    ...byFile(rest).map(([file, names]) => `- ${file}: ${names.map((name) => `\`${name}\``).join(', ')}`),
    '',
  ].join('\n');
}

if (!process.env.OUTSIDE_VALUES) {
  console.error(
    'OUTSIDE_VALUES names no folder: without the outside vectors the table would lose rows, so it is left as it is.',
  );
  process.exit(2);
}
writeFileSync(join(calc, 'README.md'), render(group(readNotes()), listExports()));
