// A person who walks through a procedure of the demo in a browser: opens pages, confirms, stands on steps, goes on.

import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { ServedSite } from './site-server.js';

/** The button that leads on. */
export const next = (page: Page) => page.locator('.walk-bar .main');
/** The step on the screen, as `step-9`. */
export const step = (page: Page) => page.locator('.step.walk-here').getAttribute('id');

/** Whether all of an element is on the screen. */
export async function isInSight(page: Page, selector: string): Promise<boolean> {
  const box = await page.locator(selector).first().boundingBox();
  const size = page.viewportSize();
  return box !== null && size !== null && box.y >= 0 && box.y + box.height <= size.height + 1;
}

/** What the person does, on the site and in the browser that there are by then. */
export function walkOn(given: () => { readonly site: ServedSite; readonly browser: Browser }) {
  async function open(path: string, viewport = { width: 360, height: 640 }): Promise<Page> {
    const { site, browser } = given();
    const context = await browser.newContext({ viewport });
    const page = await context.newPage();
    page.setDefaultTimeout(8000);
    await page.goto(site.address + path);
    return page;
  }

  async function begin(page: Page): Promise<void> {
    await page.locator('.walk-go').click();
    await next(page).click();
    await page.locator('#before.walk-here').waitFor();
    const technician = page.locator('.walk-skill > button');
    if (await technician.count()) {
      await technician.click();
      await technician.waitFor({ state: 'detached' });
    }
    for (const box of await page.locator('#before.walk-here input').all()) await box.check();
    await next(page).click();
  }

  /** Stands on a step at once, as the desk does. */
  async function standOn(path: string, label: string, viewport?: { width: number; height: number }): Promise<Page> {
    const page = await open(`${path}#step-${label}`, viewport);
    await page.locator('.walk-other').click();
    await page.locator(`#step-${label}.walk-here`).waitFor();
    return page;
  }

  /** Goes on, waiting by another clock and marking what is asked, until a step is on the screen. */
  async function goTo(page: Page, label: string): Promise<void> {
    for (let i = 0; i < 30 && (await step(page)) !== `step-${label}`; i += 1) {
      const before = await step(page);
      if (await page.locator('.walk-timer').count()) await page.locator('.walk-timer button').last().click();
      if (await page.locator('.walk-marks').count()) await page.locator('.walk-marks button').first().click();
      const field = page.locator('.walk-here .walk-field:not(.small) input');
      if (await field.count()) await field.fill('5.02');
      await next(page).click();
      await page.locator(`.step.walk-here:not(#${before})`).waitFor();
    }
    expect(await step(page)).toBe(`step-${label}`);
  }

  return { open, begin, standOn, goTo };
}
