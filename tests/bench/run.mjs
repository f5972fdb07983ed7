// Reports what a full build costs as a ratio to the floor: reading the same files, `yaml.parse` of the front matter, and
// remark-parse, remark-rehype, rehype-stringify of the body, on one thread, in the same run. Gates nothing.
//   npm run build && npm run bench [-- N …]

import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative, sep } from 'node:path';
import rehypeStringify from 'rehype-stringify';
import remarkParse from 'remark-parse';
import remarkRehype from 'remark-rehype';
import { unified } from 'unified';
import { parse } from 'yaml';
import { generateBook } from './generate.mjs';

const root = join(import.meta.dirname, '../..');
const { readBookFolder, writeFolder } = await import(join(root, 'dist/io.js'));
const { checkBook } = await import(join(root, 'dist/compile.js'));
const { buildBook } = await import(join(root, 'dist/build.js'));
const { cardFonts } = await import(join(root, 'dist/emit/cards/fonts.js'));
const { packageFiles } = await import(join(root, 'dist/commands/package-files.js'));

function filesBelow(folder) {
  return readdirSync(folder)
    .sort()
    .map((name) => join(folder, name))
    .flatMap((path) => (statSync(path).isDirectory() ? filesBelow(path) : [path]));
}

function write(folder, files) {
  for (const [path, text] of files) {
    mkdirSync(join(folder, dirname(path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
}

function timed(work) {
  const start = performance.now();
  const result = work();
  return { seconds: (performance.now() - start) / 1000, result };
}

function runFloor(folder) {
  const pipeline = unified().use(remarkParse).use(remarkRehype).use(rehypeStringify);
  let length = 0;
  for (const path of filesBelow(folder)) {
    const text = readFileSync(path, 'utf8');
    const [, front, body = ''] = /^---\n([\s\S]*?)\n---\n([\s\S]*)$/.exec(text) ?? [undefined, text];
    length +=
      JSON.stringify(parse(front)).length + (path.endsWith('.md') ? String(pipeline.processSync(body)).length : 0);
  }
  return length;
}

function runBuild(folder, out) {
  const parts = {};
  const step = (name, work) => {
    const { seconds, result } = timed(work);
    parts[name] = seconds;
    return result;
  };
  const assets = packageFiles('dist/site');
  const fonts = cardFonts(packageFiles('dist/card-fonts'));
  const book = step('read', () => readBookFolder(folder));
  const input = {
    sources: book.files,
    figures: new Set(book.figures.keys()),
    today: '2026-11-24',
    fonts,
  };
  const checked = step('check', () => checkBook(input));
  const errors = checked.diagnostics.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new Error(`The generated book is not clean: ${errors[0].message}`);
  const files = step('emit', () => buildBook({ ...checked, figures: book.figures, assets, fonts }));
  step('write', () => writeFolder(out, files));
  return { parts, files: files.size };
}

const base = new Map(
  filesBelow(join(root, 'tests/books/base')).map((path) => [
    relative(join(root, 'tests/books/base'), path).split(sep).join('/'),
    readFileSync(path, 'utf8'),
  ]),
);
const counts = process.argv.slice(2).map(Number);
for (const count of counts.length > 0 ? counts : [200, 2000]) {
  const folder = mkdtempSync(join(tmpdir(), 'stepgauge-bench-'));
  write(join(folder, 'book'), generateBook(base, count));
  runFloor(join(folder, 'book'));
  const floor = timed(() => runFloor(join(folder, 'book'))).seconds;
  const build = timed(() => runBuild(join(folder, 'book'), join(folder, 'out')));
  const parts = Object.entries(build.result.parts).map(([name, seconds]) => `${name} ${(seconds / floor).toFixed(2)}`);
  const memory = Math.round(process.memoryUsage().rss / 1e6);
  process.stdout.write(
    `${count} procedures: ${(build.seconds / floor).toFixed(2)} times the floor (${parts.join(', ')}); ` +
      `floor ${floor.toFixed(2)} s, build ${build.seconds.toFixed(2)} s, ${build.result.files} files, ${memory} MB\n`,
  );
  rmSync(folder, { recursive: true, force: true });
}
await import('./phone.mjs');

await import('./proof.mjs');
