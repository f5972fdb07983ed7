// Puts the built program together: opening hundreds of modules takes a fifth of the time of a check, and compiling them another
// seventh. All else of dist/ stays as it was compiled.

import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { validatorsText } from './validators-text.mjs';

const root = join(import.meta.dirname, '../..');
const target = join(root, 'dist/commands');
const shared = {
  absWorkingDir: root,
  bundle: true,
  platform: 'node',
  target: 'node20',
  charset: 'utf8',
  logLevel: 'warning',
};

await build({
  ...shared,
  stdin: { contents: await validatorsText(), resolveDir: join(root, 'dist/read') },
  outfile: join(target, 'validators.js'),
  format: 'esm',
  minify: true,
});

/** The validators as they were written out, in the place of the module that compiles them. */
const validators = {
  name: 'validators',
  setup({ onResolve }) {
    onResolve({ filter: /\/validators\.js$/ }, () => ({ path: join(target, 'validators.js') }));
  },
};

// the engine tells programs apart by their length: code of an older one must never meet a new one
rmSync(join(target, 'whole.code'), { force: true });

// the library that draws cards has files of its own beside it
const { metafile } = await build({
  ...shared,
  entryPoints: ['src/commands/start.ts'],
  outfile: join(target, 'whole.cjs'),
  format: 'cjs',
  define: { 'import.meta.url': 'programUrl', 'import.meta.dirname': '__dirname' },
  external: ['pdfkit'],
  supported: { 'dynamic-import': false },
  plugins: [validators],
  metafile: true,
});
await build({
  ...shared,
  entryPoints: ['src/commands/guard-worker.ts'],
  outdir: target,
  format: 'esm',
  packages: 'external',
  plugins: [validators],
});
writeFileSync(join(target, 'whole.licences.txt'), licencesOf(Object.keys(metafile.inputs)));

// a check of the demo meets what a check of any book meets
execFileSync(process.execPath, [join(import.meta.dirname, 'keep-code.mjs'), 'check', 'procedures'], {
  cwd: root,
  stdio: ['ignore', 'ignore', 'inherit'],
});

/** The licences of the libraries whose files went into the program. */
function licencesOf(inputs) {
  const names = inputs.flatMap((file) => /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(file)?.[1] ?? []);
  return [...new Set(names)]
    .sort()
    .map((name) => `${name}\n\n${licenceOf(join(root, 'node_modules', name))}`)
    .join(`\n${'-'.repeat(72)}\n\n`);
}

/** The licence as the package brings it, or the name of it. */
function licenceOf(folder) {
  const file = readdirSync(folder).find((name) => /^licen[cs]e/i.test(name));
  return file
    ? readFileSync(join(folder, file), 'utf8')
    : `${JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')).license}\n`;
}
