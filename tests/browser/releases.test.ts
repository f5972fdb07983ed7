// Scanning a card: one of today, an old one that a release knows, and one that none knows.

import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compileBook } from '../../src/build.js';
import { cardsOf } from '../../src/emit/cards/card-list.js';
import { emitSite } from '../../src/emit/pages/site.js';
import { historyOf } from '../../src/history/history.js';
import { demoBook } from '../emit-pages/books.js';
import { bundle, openBrowser, type ServedSite, serveBelow } from './site-server.js';

let browser: Browser;
let site: ServedSite;

const demo = demoBook({ proved: false });
const now = compileBook(demo.resolved, demo.figures);
const id = 'learn-height-range';

/** The demo as it was: one revision lower, and without the last step of one procedure. */
const book = {
  ...now,
  variants: now.variants.map((variant) => {
    const { procedure } = variant;
    if (procedure.id !== id) return variant;
    const steps = procedure.steps.slice(0, -1);
    return { ...variant, procedure: { ...procedure, revision: procedure.revision - 1, steps } };
  }),
};
const found = now.variants.find(({ procedure }) => procedure.id === id);
const revision = found?.procedure.revision ?? 0;
const address = `c/${(found?.cards[0]?.code ?? '').toLowerCase()}/`;

beforeAll(async () => {
  const history = historyOf([{ name: 'before', date: '2026-03-01', sources: '', book }], now);
  const cards = cardsOf(demo.resolved).map(({ variant, ...card }) => ({ ...card, variant: variant.id }));
  const files = emitSite(demo.resolved, { figures: demo.figures, assets: bundle(), cards, history });
  site = await serveBelow('/books/header/', files);
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  site?.server.close();
});

async function scan(printed: number, look: (page: Page) => Promise<void>): Promise<void> {
  const page = await browser.newPage({ viewport: { width: 360, height: 640 } });
  await page.goto(`${site.address}${address}#${printed}`);
  await look(page);
  await page.close();
}

describe('a card that is scanned', () => {
  it('of the revision of the book leads to its page without a warning', async () => {
    await scan(revision, async (page) => {
      await page.locator('.card-now a').first().waitFor({ state: 'visible' });
      for (const part of ['.card-old', '.card-since', '.card-unknown', '.card-any'])
        expect([part, await page.locator(part).first().isVisible()]).toEqual([part, false]);
    });
  });

  it('of a revision that a release has is told what changed, and where the pages of its rigs are', async () => {
    await scan(revision - 1, async (page) => {
      await page.locator('.card-since').waitFor({ state: 'visible' });
      expect(await page.locator('.card-since').textContent()).toMatch(/Step \d+ new/);
      expect(await page.locator('.card-since .rows a').count()).toBeGreaterThan(0);
      expect(await page.locator('.card-old').isVisible()).toBe(true);
      expect(await page.locator('.card-now').isVisible()).toBe(false);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(360);
    });
  });

  it('of a revision that no release has is told so, with the pages of all headers of the machine', async () => {
    await scan(revision + 5, async (page) => {
      await page.locator('.card-unknown').waitFor({ state: 'visible' });
      expect(await page.locator('.card-old').isVisible()).toBe(true);
      expect(await page.locator('.card-since').first().isVisible()).toBe(false);
      expect(await page.locator('.card-any a').count()).toBeGreaterThanOrEqual(
        await page.locator('.card-now a').count(),
      );
      expect(await page.locator('.card-now').isVisible()).toBe(false);
    });
  });
});
