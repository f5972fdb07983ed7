// Puts what the built program reads at run time beside it: the pages of the rules, the files that `new` starts from, and the
// faces of the cards. Those are unpacked here: packed ones would be unpacked for every card, and from WOFF2 the outlines do
// not come through into a PDF.

import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { inflateSync } from 'node:zlib';

const root = join(import.meta.dirname, '../..');
const pages = join(root, 'dist/rule-pages');
mkdirSync(pages, { recursive: true });
for (const entry of readdirSync(join(root, 'src/rules'), { recursive: true, withFileTypes: true })) {
  if (entry.isFile() && entry.name.endsWith('.md') && entry.name !== 'README.md') {
    cpSync(join(entry.parentPath, entry.name), join(pages, basename(entry.name)));
  }
}
cpSync(join(root, 'src/starter'), join(root, 'dist/starter'), { recursive: true });
mkdirSync(join(root, 'dist/card-fonts'), { recursive: true });
for (const weight of [400, 700]) {
  const packed = readFileSync(join(root, `node_modules/@fontsource/b612/files/b612-latin-${weight}-normal.woff`));
  writeFileSync(join(root, `dist/card-fonts/b612-latin-${weight}-normal.ttf`), unpack(packed));
}

/** A WOFF 1.0 file as the sfnt it was made from (W3C, WOFF File Format 1.0, sections 3 to 5). */
function unpack(woff) {
  const count = woff.readUInt16BE(12);
  const tables = Array.from({ length: count }, (_, i) => {
    const at = 44 + i * 20;
    const [offset, packed, length] = [4, 8, 12].map((field) => woff.readUInt32BE(at + field));
    const bytes = woff.subarray(offset, offset + packed);
    return { entry: woff.subarray(at, at + 20), bytes: packed < length ? inflateSync(bytes) : bytes };
  });
  const power = 2 ** Math.floor(Math.log2(count));
  const head = Buffer.alloc(12 + count * 16);
  woff.copy(head, 0, 4, 8);
  [count, power * 16, Math.log2(power), (count - power) * 16].forEach((field, i) => {
    head.writeUInt16BE(field, 4 + i * 2);
  });
  const parts = [head];
  let offset = head.length;
  for (const [i, { entry, bytes }] of tables.entries()) {
    const at = 12 + i * 16;
    entry.copy(head, at, 0, 4);
    entry.copy(head, at + 4, 16, 20);
    head.writeUInt32BE(offset, at + 8);
    head.writeUInt32BE(bytes.length, at + 12);
    const padded = Buffer.alloc(Math.ceil(bytes.length / 4) * 4);
    bytes.copy(padded);
    parts.push(padded);
    offset += padded.length;
  }
  return Buffer.concat(parts);
}
