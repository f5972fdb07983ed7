// Reports what guard costs: the time of one slip as a ratio to a full check of the same book, in the same run, and how long
// all slips of the demo would take on one core at that. Gates nothing.
//   npm run build && node tests/bench/guard.mjs [number of slips]

import { join } from 'node:path';

const root = join(import.meta.dirname, '../..');
const { readBookFolder } = await import(join(root, 'dist/io.js'));
const { checkBook } = await import(join(root, 'dist/compile.js'));
const { tuneEngine } = await import(join(root, 'dist/commands/engine.js'));
const { guardBook } = await import(join(root, 'dist/guard/guard.js'));

tuneEngine();
const today = '2026-11-24';
const size = Number(process.argv[2] ?? 200);
const { files, figures } = readBookFolder(join(root, 'procedures'));
const book = { sources: files, figures: new Set(figures.keys()), today };

/** Seconds of the processor, which what else runs on the machine lengthens less than those of the clock. */
function spent(work) {
  const before = process.cpuUsage();
  const result = work();
  const { user, system } = process.cpuUsage(before);
  return { seconds: (user + system) / 1e6, result };
}

function median(all) {
  return [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)];
}

checkBook(book);
const check = median(Array.from({ length: 5 }, () => spent(() => checkBook(book)).seconds));
const start = spent(() => guardBook({ ...book, sample: { size: 0, seed: 1 } })).seconds;
const { seconds, result } = spent(() => guardBook({ ...book, sample: { size, seed: 1 } }));
const slip = Math.max(0, seconds - start) / size;
const { possible, total } = result.result;
console.log(`a full check            ${check.toFixed(2)} s`);
console.log(`a slip                  ${(1000 * slip).toFixed(1)} ms, ${(slip / check).toFixed(3)} of a full check`);
console.log(`all ${possible} slips          about ${(start + possible * slip).toFixed(0)} s on one core`);
console.log(`noticed                 ${total.percent} % of ${total.counted} that count`);
