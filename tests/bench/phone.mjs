// Reports what a phone fetches to keep one machine of the demo book, and what opening a page costs it besides. Gates nothing.
//   npm run build && node tests/bench/phone.mjs

import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

const root = join(import.meta.dirname, '../..');
const { loadBook } = await import(join(root, 'dist/commands/load.js'));
const { filesOf } = await import(join(root, 'dist/commands/build.js'));

const loaded = loadBook(join(root, 'procedures'), { format: 'text', strict: true, today: '2026-11-24' });
const files = filesOf(loaded, false);
const packed = (path) => gzipSync(files.get(path)).length;
const kilo = (bytes) => `${(bytes / 1000).toFixed(1)} kB`;

for (const [path, text] of files) {
  if (!path.endsWith('/offline.json')) continue;
  const list = JSON.parse(text);
  const shipped = list.files.reduce((sum, [file]) => sum + packed(file), 0);
  process.stdout.write(
    `${list.folder} ${list.files.length} files, ${kilo(list.bytes)}, ${kilo(shipped)} compressed; its list ${kilo(packed(path))}\n`,
  );
}
process.stdout.write(
  `worker.js ${kilo(packed('worker.js'))} compressed, status.json ${kilo(packed('status.json'))} compressed\n`,
);
