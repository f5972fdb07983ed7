// Puts what the built program reads at run time beside it: the pages of the rules and the files that `new` starts from.

import { cpSync, mkdirSync, readdirSync } from 'node:fs';
import { basename, join } from 'node:path';

const root = join(import.meta.dirname, '../..');
const pages = join(root, 'dist/rule-pages');
mkdirSync(pages, { recursive: true });
for (const entry of readdirSync(join(root, 'src/rules'), { recursive: true, withFileTypes: true })) {
  if (entry.isFile() && entry.name.endsWith('.md')) {
    cpSync(join(entry.parentPath, entry.name), join(pages, basename(entry.name)));
  }
}
cpSync(join(root, 'src/starter'), join(root, 'dist/starter'), { recursive: true });
