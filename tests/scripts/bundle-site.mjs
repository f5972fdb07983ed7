// Bundles what runs or shows in the browser into dist/site, or the folder named: client.js and the parts that it fetches
// when a page has a use for them, jobs.js and jobs.css for the page of jobs, worker.js, style.css, fonts, the icons.

import { cpSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';

const root = join(import.meta.dirname, '../..');
const out = resolve(process.argv[2] ?? join(root, 'dist/site'));

const shared = {
  absWorkingDir: root,
  outdir: out,
  bundle: true,
  target: ['es2022', 'chrome100', 'firefox100', 'safari15.4'],
  minify: true,
  charset: 'utf8',
  legalComments: 'none',
  logLevel: 'warning',
};
await build({
  ...shared,
  entryPoints: { client: 'site/client/main.ts', jobs: 'site/client/jobs-page/main.ts' },
  format: 'esm',
  splitting: true,
  chunkNames: 'part-[hash]',
});
await build({
  ...shared,
  entryPoints: { style: 'site/css/style.css', jobs: 'site/css/jobs.css' },
  loader: { '.woff2': 'file' },
  assetNames: 'fonts/[name]',
});
// one file by itself: it stands at the site's root, and shares no part with the pages
await build({ ...shared, entryPoints: { worker: 'site/worker/worker.ts' }, format: 'iife' });
cpSync(join(root, 'site/icon.svg'), join(out, 'icon.svg'));
cpSync(join(root, 'site/icons'), join(out, 'icons'), { recursive: true });
