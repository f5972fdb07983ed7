// Bundles what runs or shows in the browser into dist/site, or the folder named: client.js and the parts that it fetches
// when a page has a use for them, jobs.js and jobs.css for the page of jobs, the same for that of calculators, worker.js, style.css,
// listing.css for pages that are no procedure, walk.css for the walk-through, fonts, the icons.

import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';
import subsetFont from 'subset-font';

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
  entryPoints: {
    client: 'site/client/main.ts',
    jobs: 'site/client/jobs-page/main.ts',
    calculators: 'site/client/calculators/main.ts',
  },
  format: 'esm',
  splitting: true,
  chunkNames: 'part-[hash]',
});
await build({
  ...shared,
  entryPoints: {
    style: 'site/css/style.css',
    walk: 'site/css/walk.css',
    listing: 'site/css/listing.css',
    jobs: 'site/css/jobs.css',
    calculators: 'site/css/calculators.css',
    changes: 'site/css/changes.css',
  },
  loader: { '.woff2': 'file' },
  assetNames: 'fonts/[name]',
});
// one file by itself: it stands at the site's root, and shares no part with the pages
await build({ ...shared, entryPoints: { worker: 'site/worker/worker.ts' }, format: 'iife' });
cpSync(join(root, 'site/icon.svg'), join(out, 'icon.svg'));
cpSync(join(root, 'site/icons'), join(out, 'icons'), { recursive: true });

// The faces are cut down to the letters of the interface's languages and the signs of pages, and lose what only old screens need: a page
// is fetched over a weak signal. Signs beyond these come from the phone's own face.
const signs = [
  ...Array.from({ length: 95 }, (_, i) => String.fromCodePoint(0x20 + i)),
  ...'\u00a0¡¿ªº«»°±×·§µ¼½¾²³ÁÉÍÓÚÜÑáéíóúüñ–—‘’“”…−′″',
].join('');
for (const name of readdirSync(join(out, 'fonts'))) {
  const path = join(out, 'fonts', name);
  writeFileSync(path, await subsetFont(readFileSync(path), signs, { targetFormat: 'woff2', noHinting: true }));
}
