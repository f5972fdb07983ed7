// A phone of 360 by 640 with a served site of its own for each test file, and a machine kept on it.

import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll } from 'vitest';
import { openBrowser, type ServedSite, serveBelow } from './site-server.js';

export interface Phone {
  /** What is served; as it was at first before each test. */
  readonly site: ServedSite;
  /** A new phone, with nothing on it; the one before is closed after its test. */
  readonly open: () => Promise<Page>;
  /** The same once it has kept the pages of a home. */
  readonly keep: (home: string) => Promise<Page>;
}

/** Serves the files and opens a browser for the tests of a file. What it gives is there while tests run. */
export function phoneFor(files: ServedSite['files']): Phone {
  let browser: Browser;
  let site: ServedSite;
  let context: BrowserContext | undefined;

  beforeAll(async () => {
    site = await serveBelow('/books/header/', files);
    browser = await openBrowser();
  });
  afterEach(async () => {
    await context?.close();
    context = undefined;
    site.files = files;
    site.isDown = false;
  });
  afterAll(async () => {
    await browser?.close();
    site?.server.close();
  });

  const open = async (): Promise<Page> => {
    context = await browser.newContext({ viewport: { width: 360, height: 640 } });
    return context.newPage();
  };
  return {
    get site() {
      return site;
    },
    open,
    keep: async (home) => {
      const page = await open();
      await page.goto(site.address + home);
      await page.locator('[data-do="keep"]').click();
      await page.locator('[data-say="kept"]').waitFor();
      return page;
    },
  };
}
