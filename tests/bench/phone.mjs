// Reports what a phone has to do: how well and how fast the search answers on a machine with 200 procedures, how much is
// fetched before its first answer, and what Lighthouse says of a procedure page under its mobile profile. Gates nothing.
//   npm run build && node tests/bench/phone.mjs

import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { dirname, join, relative, sep } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { chromium } from 'playwright-core';
import { findBrowser } from '../scripts/browser.mjs';
import { generateBook } from './generate.mjs';

const root = join(import.meta.dirname, '../..');
const { loadBook } = await import(join(root, 'dist/commands/load.js'));
const { filesOf } = await import(join(root, 'dist/commands/build.js'));

const say = (line) => process.stdout.write(`${line}\n`);
const options = { format: 'text', strict: false, today: '2026-11-24' };

function filesBelow(folder) {
  return readdirSync(folder)
    .sort()
    .map((name) => join(folder, name))
    .flatMap((path) => (statSync(path).isDirectory() ? filesBelow(path) : [path]));
}

/** The site of a generated book of so many procedures. */
function generatedSite(count) {
  const base = new Map(
    filesBelow(join(root, 'tests/books/base')).map((path) => [
      relative(join(root, 'tests/books/base'), path).split(sep).join('/'),
      readFileSync(path, 'utf8'),
    ]),
  );
  const folder = mkdtempSync(join(tmpdir(), 'stepgauge-phone-'));
  try {
    for (const [path, text] of generateBook(base, count)) {
      mkdirSync(join(folder, dirname(path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    return filesOf(loadBook(folder, options), false);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const types = {
  html: 'text/html; charset=utf-8',
  css: 'text/css; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  json: 'application/json; charset=utf-8',
  webmanifest: 'application/manifest+json',
  svg: 'image/svg+xml',
  png: 'image/png',
  woff2: 'font/woff2',
};

/** Serves files compressed, as any host does, and notes what was asked for. */
async function serve(files) {
  const asked = [];
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url, 'http://127.0.0.1').pathname).slice(1);
    const name = path === '' || path.endsWith('/') ? `${path}index.html` : path;
    const body = files.get(name);
    if (body === undefined) return void response.writeHead(404).end();
    const type = types[name.split('.').at(-1)] ?? 'application/octet-stream';
    const packed = /woff2|png/.test(name) ? Buffer.from(body) : gzipSync(body);
    asked.push({ name, size: packed.length });
    const encoding = /woff2|png/.test(name) ? {} : { 'content-encoding': 'gzip' };
    response.writeHead(200, { 'content-type': type, 'cache-control': 'max-age=3600', ...encoding }).end(packed);
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  return { server, asked, address: `http://127.0.0.1:${server.address().port}/` };
}

async function reportQuality() {
  const folder = mkdtempSync(join(tmpdir(), 'stepgauge-rank-'));
  try {
    const outfile = join(folder, 'rank.mjs');
    const contents = `export * from './rank.ts'; export * from './queries.ts';`;
    const stdin = { contents, resolveDir: join(root, 'tests/emit-search'), loader: 'ts' };
    await build({
      stdin,
      outfile,
      bundle: true,
      format: 'esm',
      platform: 'node',
      logLevel: 'error',
      banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
    });
    const { rankQueries, meanReciprocalRank, queries } = await import(outfile);
    const { resolved } = loadBook(join(root, 'procedures'), options).checked;
    const ranked = rankQueries(resolved, queries);
    const kinds = [...new Set(queries.map(({ kind }) => kind))];
    const parts = kinds.map((kind) => {
      const own = ranked.filter(({ query }) => query.kind === kind);
      return `${kind} ${meanReciprocalRank(own).toFixed(3)} of ${own.length}`;
    });
    say(`search, mean reciprocal rank: ${parts.join(', ')}`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** From a key pressed to the first answer shown, at four-fold slowdown; the middle of several words. */
async function reportSearch(browser) {
  const { server, asked, address } = await serve(generatedSite(200));
  const page = await browser.newPage({ viewport: { width: 360, height: 640 } });
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await page.goto(`${address}tarn-40/row-12x20/`);
  await page.waitForSelector('#search:not([hidden])');
  await page.locator('#query').focus();
  await page.waitForTimeout(1500);
  const times = [];
  for (const words of [
    'sensor 17 on the ground',
    'raise',
    'fedder house',
    'check number 120',
    'voltage',
    'belt chian',
  ]) {
    times.push(
      await page.evaluate(async (text) => {
        const input = document.querySelector('#query');
        input.value = '';
        input.dispatchEvent(new Event('input'));
        await new Promise((resolve) => setTimeout(resolve, 100));
        const shown = new Promise((resolve) => {
          const results = document.querySelector('#results');
          new MutationObserver((_, observer) => {
            if (!results.querySelector('.hit')) return;
            observer.disconnect();
            resolve(performance.now());
          }).observe(results, { childList: true, subtree: true });
        });
        const start = performance.now();
        input.value = text;
        input.dispatchEvent(new Event('input'));
        return (await shown) - start;
      }, words),
    );
  }
  times.sort((a, b) => a - b);
  const before = asked.filter(({ name }) => /\.js$|search\.json$/.test(name));
  const size = before.reduce((sum, one) => sum + one.size, 0) / 1000;
  const largest = before.map(({ name, size: own }) => `${name.split('/').at(-1)} ${(own / 1000).toFixed(1)}`);
  say(`search, 200 procedures: ${size.toFixed(1)} kB before the first answer (${largest.join(', ')})`);
  say(
    `search, first answer at a quarter of the speed: ${times[times.length >> 1].toFixed(0)} ms in the middle, ${times.at(-1).toFixed(0)} ms at most`,
  );
  await page.close();
  server.close();
}

async function reportLighthouse(path) {
  const { default: lighthouse } = await import('lighthouse');
  const loaded = loadBook(join(root, 'procedures'), options);
  const { server, address } = await serve(filesOf(loaded, false));
  const port = 9500 + (process.pid % 400);
  const browser = await chromium.launch({
    executablePath: findBrowser().path,
    args: ['--headless', '--no-sandbox', '--disable-gpu', `--remote-debugging-port=${port}`],
  });
  try {
    const only = ['performance', 'accessibility', 'best-practices'];
    const { lhr } = await lighthouse(address + path, { port, onlyCategories: only, logLevel: 'silent' });
    const scores = only.map((name) => `${name} ${Math.round((lhr.categories[name].score ?? 0) * 100)}`);
    say(`Lighthouse, mobile profile, ${path}: ${scores.join(', ')}`);
    for (const name of only) {
      for (const { id, weight } of lhr.categories[name].auditRefs) {
        const audit = lhr.audits[id];
        if (weight > 0 && audit.score !== null && audit.score < 0.995)
          say(`  ${id} ${audit.score}: ${audit.displayValue ?? audit.title}`);
      }
    }
  } finally {
    await browser.close();
    server.close();
  }
}

await reportQuality();
const { path: executablePath, why } = findBrowser();
if (executablePath === undefined) say(why);
else {
  const browser = await chromium.launch({ executablePath, args: ['--headless', '--no-sandbox', '--disable-gpu'] });
  await reportSearch(browser);
  await browser.close();
  await reportLighthouse('tarn-40/row-12x20/check-height-sensor/');
}
