// An open job is never gone on with for another machine of the same kind by accident: whose it is stands before the way on,
// and another can be begun beside it.
// biome-ignore-all lint/performance/useDomNodeTextContent: what a person sees counts, not what the markup holds

import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { smallBook } from '../emit-pages/small-book.js';
import { buildSite, openBrowser, type ServedSite, serveBelow } from './site-server.js';

const base = '/books/header/';
const home = 'tarn-40/row-12x20/';
const learn = `${home}learn-height-range/`;

let browser: Browser;
let site: ServedSite;
let context: BrowserContext;

beforeAll(async () => {
  site = await serveBelow(base, buildSite(smallBook()));
  browser = await openBrowser();
});

afterEach(async () => {
  await context?.close();
});

afterAll(async () => {
  await browser?.close();
  site?.server.close();
});

async function phone(): Promise<Page> {
  context = await browser.newContext({ viewport: { width: 360, height: 640 } });
  const page = await context.newPage();
  page.setDefaultTimeout(8000);
  await page.goto(site.address);
  return page;
}

/** The phone stands by this unit, or by a machine that nobody named. */
async function standBy(page: Page, unit?: string, serial?: string): Promise<void> {
  const known = { options: {}, software: {}, ...(serial !== undefined && { serial }) };
  const rig = { folder: home, name: 'Tarn 40', known, ...(unit !== undefined && { unit }) };
  await page.evaluate(([key, value]) => localStorage.setItem(key, value), [
    `stepgauge-rigs ${base}`,
    JSON.stringify([rig]),
  ] as const);
}

/** Does the first act of the walk that has begun. */
async function act(page: Page): Promise<void> {
  await page.locator('.walk-bar .main').click();
  await page.locator('#before.walk-here').waitFor();
}

async function begin(page: Page): Promise<void> {
  await page.goto(site.address + learn);
  await page.locator('.walk-go').click();
  await act(page);
}

const whose = (page: Page): Promise<readonly string[]> => page.locator('.walk-whose').allInnerTexts();
const beside = (page: Page) => page.getByRole('button', { name: 'Start for another machine' });

async function jobsKept(page: Page): Promise<number> {
  await page.goto(`${site.address}jobs.html`);
  await page.locator('#jobs section').first().waitFor();
  return page.locator('[data-of="learn-height-range"]').count();
}

describe('an open job', () => {
  it('says that nobody named its machine, and leaves room for another beside it', async () => {
    const page = await phone();
    await begin(page);
    await page.reload();
    await beside(page).waitFor();
    expect(await whose(page)).toEqual([
      expect.stringMatching(/^Unit and serial number were not given · begun .*20\d\d/),
    ]);
    await beside(page).click();
    // it begins at the beginning, not where the other stands
    await page.locator('.cautions.walk-here').waitFor();
    await act(page);
    await page.reload();
    await beside(page).waitFor();
    expect((await whose(page)).length).toBe(2);
    expect(await page.locator('.walk-go').count()).toBe(2);
    expect(await jobsKept(page)).toBe(2);
  });

  it('says unit, serial, work order and when it was begun', async () => {
    const page = await phone();
    await standBy(page, 'unit-17', '70-00317');
    await begin(page);
    await page.goto(`${site.address}jobs.html`);
    await page.locator('.job-actions a').first().click();
    await page.locator('#fact-work-order').fill('4711');
    await page.locator('#fact-work-order').press('Tab');
    await page.locator('#facts .status, .facts .status').filter({ hasText: /\S/ }).waitFor();
    // a serial that no machine of the page has is remarked on and kept
    const serial = page.locator('#fact-machine-serial');
    await serial.fill('99-12345');
    await serial.press('Tab');
    const remark = page.locator('#fact-machine-serial-note');
    expect(await remark.innerText()).toContain('99-12345 is none of the serials that this page is for');
    await page.reload();
    expect(await remark.innerText()).toContain('70\u201100100 to 70\u201104999');
    await serial.fill('70-00317');
    await serial.press('Tab');
    expect(await remark.innerText()).toBe('');
    await page.goto(site.address + learn);
    await beside(page).waitFor();
    expect(await whose(page)).toEqual([
      expect.stringMatching(/^unit-17 · serial 70-00317 · work order 4711 · begun .*20\d\d/),
    ]);
  });

  it('of one unit is not offered by another, and its own link says that the phone stands by another', async () => {
    const page = await phone();
    await standBy(page, 'unit-17');
    await begin(page);
    await page.goto(`${site.address}jobs.html`);
    const link = (await page.locator('.entries a[href*="#job="]').first().getAttribute('href')) ?? '';
    await standBy(page, 'unit-18');
    await page.goto(site.address + learn);
    await page.locator('.walk-go').waitFor();
    expect(await whose(page)).toEqual([]);
    await page.goto(new URL(link, `${site.address}jobs.html`).href);
    await page.reload();
    await page.locator('.walk-whose').waitFor();
    expect(await page.locator('#walk-start .walk-warning').innerText()).toBe(
      'This job is of unit-17. The phone stands by unit-18 now.',
    );
    // a phone that does not say which unit it stands by asks
    await standBy(page);
    await page.goto(site.address + learn);
    await beside(page).waitFor();
    expect((await whose(page))[0]).toMatch(/^unit-17 · /);
  });

  it('that two windows start at the same moment is begun by one of them, and the other is told', async () => {
    const page = await phone();
    const other = await context.newPage();
    await Promise.all([page.goto(site.address + learn), other.goto(site.address + learn)]);
    await Promise.all([page.locator('.walk-go').click(), other.locator('.walk-go').click()]);
    const isTold = async (one: Page): Promise<boolean> => {
      await one.locator('body.walking, #walk-start .walk-warning').first().waitFor();
      return one.locator('#walk-start .walk-warning').isVisible();
    };
    const told = [await isTold(page), await isTold(other)];
    expect(told.filter((one) => one)).toHaveLength(1);
    const [first, second] = told[1] ? [page, other] : [other, page];
    expect(await second.locator('#walk-start .walk-warning').innerText()).toMatch(/^Another window is just starting/);
    // once something was done there, that job is offered here
    await act(first);
    await second.locator('.walk-go').click();
    await second.locator('.walk-whose').waitFor();
    expect(await whose(second)).toHaveLength(1);
    expect(await jobsKept(second)).toBe(1);
  });

  it('is not gone on with unseen where the phone has lost its note', async () => {
    const page = await phone();
    await begin(page);
    await page.goto(site.address);
    await page.evaluate(() => {
      for (const key of Object.keys(localStorage)) if (key.startsWith('stepgauge-jobs ')) localStorage.removeItem(key);
    });
    await page.goto(site.address + learn);
    await page.locator('.walk-go').click();
    await page.locator('.walk-whose').waitFor();
    expect(await page.locator('.walk-bar').count()).toBe(0);
  });
});
