// The offer to put the book on the home screen, in a real browser. Its own prompt comes only to sites that it has seen for a
// while, so the event is sent here as W3C Manifest Incubations describes it.
// biome-ignore-all lint/performance/useDomNodeTextContent: what a person sees counts, not what the markup holds

import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { smallBook } from '../emit-pages/small-book.js';
import { buildSite, openBrowser, type ServedSite, serveBelow } from './site-server.js';

const home = 'tarn-40/row-12x20/';
let browser: Browser;
let site: ServedSite;
let context: BrowserContext;

beforeAll(async () => {
  site = await serveBelow('/books/header/', buildSite(smallBook()));
  browser = await openBrowser();
});

afterEach(async () => {
  await context?.close();
});

afterAll(async () => {
  await browser?.close();
  site?.server.close();
});

async function open(path: string, prepare: (page: Page) => Promise<unknown> = async () => {}): Promise<Page> {
  context = await browser.newContext({ viewport: { width: 360, height: 640 } });
  const page = await context.newPage();
  await prepare(page);
  await page.goto(site.address + path);
  return page;
}

/** Lets the browser offer its prompt, and a person answer it so; gives how often it was shown. */
function offer(page: Page, outcome: 'accepted' | 'dismissed'): Promise<boolean> {
  return page.evaluate((given) => {
    const seen = window as unknown as { prompts: number };
    seen.prompts = 0;
    const event = new Event('beforeinstallprompt', { cancelable: true });
    const prompt = (): Promise<void> => {
      seen.prompts += 1;
      return Promise.resolve();
    };
    dispatchEvent(Object.assign(event, { prompt, userChoice: Promise.resolve({ outcome: given }) }));
    return event.defaultPrevented;
  }, outcome);
}

const prompts = (page: Page): Promise<number> =>
  page.evaluate(() => (window as unknown as { prompts: number }).prompts);
const button = (page: Page) => page.getByRole('button', { name: 'Put the book on the home screen' });

describe('the home screen', () => {
  it('is offered by a button where the browser lets a page ask, and confirmed once the book is there', async () => {
    for (const path of [home, 'not-kept.html']) {
      const page = await open(path);
      await page.waitForLoadState('networkidle');
      expect(await button(page).count()).toBe(0);
      // its own banner stays away: nobody is asked without having touched anything
      expect(await offer(page, 'accepted')).toBe(true);
      await button(page).waitFor();
      expect(await prompts(page)).toBe(0);
      await button(page).click();
      await page.locator('p[data-install="done"]').waitFor();
      expect(await prompts(page)).toBe(1);
      expect(await button(page).count()).toBe(0);
      await context.close();
    }
  });

  it('is not asked for again by whoever said no', async () => {
    const page = await open(home);
    await page.waitForLoadState('networkidle');
    await offer(page, 'dismissed');
    await button(page).click();
    await button(page).waitFor({ state: 'detached' });
    expect(await page.locator('p[data-install="done"]').isVisible()).toBe(false);
  });

  it('is told in words where the browser lets no page ask', async () => {
    const page = await open('not-kept.html');
    await page.waitForLoadState('networkidle');
    expect(await page.locator('p[data-install="words"]').innerText()).toContain('in the menu of the browser');
    expect(await button(page).count()).toBe(0);
  });

  it('is not spoken of where the book was opened from it', async () => {
    for (const path of [home, 'not-kept.html']) {
      const page = await open(path, (one) =>
        one.addInitScript(() => {
          const { matchMedia } = window;
          const installed = '(display-mode: standalone)';
          window.matchMedia = (query) => matchMedia(query === installed ? 'all' : query);
        }),
      );
      await page.waitForLoadState('networkidle');
      await offer(page, 'accepted');
      expect(await page.locator('[data-install]:visible').count()).toBe(0);
      await context.close();
    }
  });

  it('has a manifest that browsers take: name, icons, start and scope of the book', async () => {
    const page = await open(home);
    const session = await context.newCDPSession(page);
    const { url, errors } = await session.send('Page.getAppManifest');
    expect(url).toBe(`${site.address}site.webmanifest`);
    expect(errors).toEqual([]);
  });
});
