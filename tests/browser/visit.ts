// A visit to a page of a site as from a phone of 360 px, at which nothing may go wrong.

import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { ServedSite } from './site-server.js';

/** Opens a page of one site and runs what is wanted. */
export type Visit = <T>(path: string, options: BrowserContextOptions, run: (page: Page) => Promise<T>) => Promise<T>;

/** Opens a page, runs what is wanted, and sees that nothing was asked of any other host and nothing went wrong in it. */
export async function visit<T>(
  browser: Browser,
  site: ServedSite,
  path: string,
  options: BrowserContextOptions,
  run: (page: Page) => Promise<T>,
): Promise<T> {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 }, ...options });
  const page = await context.newPage();
  const outside: string[] = [];
  const faults: string[] = [];
  page.on('request', (request) => {
    if (!request.url().startsWith(site.address)) outside.push(request.url());
  });
  page.on('pageerror', (fault) => faults.push(String(fault)));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  await page.goto(site.address + path);
  const result = await run(page);
  expect({ path, outside, faults, missing: site.missing }).toEqual({ path, outside: [], faults: [], missing: [] });
  await context.close();
  return result;
}
