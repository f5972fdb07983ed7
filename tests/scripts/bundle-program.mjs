// Puts the built program together in few files: opening hundreds of modules takes a fifth of the time of a check. Stands for
// dist/commands/main.js and the worker beside it; all else of dist/ stays as it was compiled.

import { join } from 'node:path';
import { build } from 'esbuild';
import { validatorsText } from './validators-text.mjs';

const root = join(import.meta.dirname, '../..');
const shared = {
  absWorkingDir: root,
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  charset: 'utf8',
  logLevel: 'warning',
};

await build({
  ...shared,
  stdin: { contents: await validatorsText(), resolveDir: join(root, 'dist/read') },
  outfile: 'dist/commands/validators.js',
  minify: true,
});

/** The validators as they were written out, in the place of the module that compiles them. */
const validators = {
  name: 'validators',
  setup({ onResolve }) {
    onResolve({ filter: /\/validators\.js$/ }, () => ({ path: './validators.js', external: true }));
  },
};

await build({
  ...shared,
  entryPoints: ['src/commands/main.ts', 'src/commands/guard-worker.ts'],
  outdir: 'dist/commands',
  splitting: true,
  chunkNames: 'part-[hash]',
  packages: 'external',
  plugins: [validators],
});
