// Draws the icons of the home screen from site/icon.svg, in Chromium: node tests/scripts/icons.mjs. Run it when the sign changes.

import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { findBrowser } from './browser.mjs';

const root = join(import.meta.dirname, '../..');
const found = findBrowser();
if (!found.path) throw new Error(found.why);
const sign = readFileSync(join(root, 'site/icon.svg'), 'utf8');
const out = join(root, 'site/icons');
mkdirSync(out, { recursive: true });
const browser = await chromium.launch({ executablePath: found.path, args: ['--headless', '--no-sandbox'] });
const page = await browser.newPage();
// a system may cut a maskable icon down to a circle of 80 % (W3C, Web Application Manifest, 1.8.2): the sign is drawn smaller
for (const [name, size, share] of [
  ['180', 180, 1],
  ['192', 192, 1],
  ['512', 512, 1],
  ['512-maskable', 512, 0.7],
]) {
  await page.setViewportSize({ width: size, height: size });
  const side = Math.round(size * share);
  await page.setContent(
    `<style>body{margin:0;display:grid;place-items:center;height:100vh;background:#5a2a5c}svg{width:${side}px;height:${side}px}</style>${sign}`,
  );
  await page.screenshot({ path: join(out, `${name}.png`) });
}
await browser.close();
