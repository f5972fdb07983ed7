// Takes the two pictures of the README from the built demo book: a page on a phone, and a card. Needs `npm run build` before,
// Chromium, and poppler's pdftoppm for the card.
//   node tests/scripts/pictures.mjs

import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { findBrowser } from './browser.mjs';

const root = join(import.meta.dirname, '../..');
const pictures = join(root, 'site/pictures');
const { loadBook } = await import(join(root, 'dist/commands/load.js'));
const { filesOf } = await import(join(root, 'dist/commands/build.js'));
const { serveFiles } = await import(join(root, 'dist/commands/serve.js'));
const { writeFolder } = await import(join(root, 'dist/io.js'));

const page = 'tarn-40/row-12x20/learn-height-range/display-4.2/';
const card = 'cards/tarn-40/learn-height-range-2.pdf';

const browser = findBrowser();
if (!browser.path) throw new Error(browser.why);
const loaded = loadBook(join(root, 'procedures'), { format: 'text', strict: true, today: '2026-11-24' });
if (!loaded.holds) throw new Error('The demo book is not clean');
const files = filesOf(loaded, false);
const server = serveFiles({ files, faults: undefined, watchers: new Set() });
await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
const folder = mkdtempSync(join(tmpdir(), 'stepgauge-pictures-'));
try {
  const chrome = await chromium.launch({ executablePath: browser.path, args: ['--no-sandbox', '--disable-gpu'] });
  const view = await chrome.newPage({ viewport: { width: 360, height: 720 }, deviceScaleFactor: 2 });
  await view.goto(`http://127.0.0.1:${server.address().port}/${page}`);
  await view.locator('#step-3').scrollIntoViewIfNeeded();
  await view.evaluate(() => document.querySelector('#step-3')?.scrollIntoView({ block: 'start' }));
  await view.screenshot({ path: join(pictures, 'phone.png') });
  await chrome.close();
  writeFolder(join(folder, 'out'), new Map([[card, files.get(card)]]));
  execFileSync('pdftoppm', [
    '-r',
    '110',
    '-png',
    '-f',
    '1',
    '-l',
    '1',
    join(folder, 'out', card),
    join(folder, 'card'),
  ]);
  const [made] = readdirSync(folder).filter((name) => name.endsWith('.png'));
  copyFileSync(join(folder, made), join(pictures, 'card.png'));
} finally {
  server.close();
  rmSync(folder, { recursive: true, force: true });
}
