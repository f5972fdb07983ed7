// Bundles what runs or shows in the browser into dist/site: client.js, style.css and the fonts it names.

import { join } from 'node:path';
import { build } from 'esbuild';

const root = join(import.meta.dirname, '../..');

await build({
  absWorkingDir: root,
  entryPoints: { client: 'site/client/main.ts', style: 'site/css/style.css' },
  outdir: 'dist/site',
  bundle: true,
  format: 'esm',
  target: ['es2022', 'chrome100', 'firefox100', 'safari15.4'],
  minify: true,
  charset: 'utf8',
  legalComments: 'none',
  loader: { '.woff2': 'file' },
  assetNames: 'fonts/[name]',
  logLevel: 'warning',
});
