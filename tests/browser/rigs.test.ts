// Machines on a phone: a unit by its sticker, several kept, options said once, and pages that open at the right version.
// biome-ignore-all lint/performance/useDomNodeTextContent: what a person sees counts, not what the markup holds

import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildDemoSite, openBrowser, type ServedSite, serveBelow } from './site-server.js';

let browser: Browser;
let site: ServedSite;

beforeAll(async () => {
  site = await serveBelow('/books/header/', buildDemoSite());
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  site?.server.close();
});

const rig = 'tarn-40/row-12x20/';

/** A phone that keeps what it is told over all pages that `run` opens. */
async function onPhone(run: (page: Page, open: (path: string) => Promise<void>) => Promise<void>): Promise<void> {
  const context = await browser.newContext({ viewport: { width: 360, height: 640 } });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', (fault) => faults.push(String(fault)));
  await run(page, async (path) => void (await page.goto(site.address + path)));
  expect(faults).toEqual([]);
  await context.close();
}

const pathOf = (page: Page): string => page.url().slice(site.address.length);

describe('a unit', () => {
  it('is chosen by its sticker, opens procedures at its version, and keeps the step that was asked for', async () => {
    await onPhone(async (page, open) => {
      await open('?unit=unit-17');
      await page.waitForURL('**/u/unit-17/');
      await page.getByRole('link', { name: /12-row header/ }).click();
      await page.locator('#rig-known', { hasText: /\w/ }).waitFor();
      expect(await page.locator('#rig-known').innerText()).toMatch(/unit-17, serial 70.00317, with lateral tilt/);
      await open(`${rig}learn-height-range/#step-4`);
      await page.waitForURL('**/display-4.2/#step-4');
      await page.getByRole('link', { name: 'Change' }).last().click();
      expect(pathOf(page)).toBe(`${rig}learn-height-range/?choose`);
    });
  });

  it('is found by the end of its serial, however it is spaced', async () => {
    await onPhone(async (page, open) => {
      await open('units.html');
      await page.getByLabel('Unit or serial number').fill('70 00317');
      expect(await page.locator('#units > li:visible').allInnerTexts()).toEqual([expect.stringContaining('unit-17')]);
      await page.getByLabel('Unit or serial number').fill('zzz');
      expect(await page.getByRole('status').innerText()).toContain('No unit has that');
    });
  });

  it('stands on a shared phone beside others, one touch away, each with its own versions', async () => {
    await onPhone(async (page, open) => {
      await open('u/unit-12/');
      await open('u/unit-17/');
      await page.getByRole('link', { name: /12-row header/ }).click();
      await page
        .locator('#machines')
        .getByRole('link', { name: /unit-12 .* 6-row/ })
        .click();
      expect(pathOf(page)).toBe('tarn-40/row-6x30/?unit=unit-12');
      await open('tarn-40/row-6x30/learn-height-range/');
      await page.waitForURL('**/display-3.10/');
      await open('');
      expect(await page.locator('.machine-list a').first().innerText()).toContain('Go on with unit-12');
      await page.getByRole('button', { name: /Take unit-12 .* 6-row/ }).click();
      await open('');
      expect(await page.locator('.machine-list').innerText()).not.toMatch(/unit-12 .* 6-row/);
    });
  });

  it('is not shown what is not for it, in lists and in the search', async () => {
    await onPhone(async (page, open) => {
      await open('u/unit-03/'); // without ground sensing
      await page.getByRole('link', { name: /6-row header/ }).click();
      await page.locator('#not-for', { hasText: 'Check and set the height sensors' }).waitFor();
      expect(await page.getByRole('link', { name: /Check and set the height sensors/ }).isVisible()).toBe(false);
      await page.getByRole('searchbox').fill('couple a header');
      await page.locator('.hit').first().waitFor();
      await page.getByRole('searchbox').fill('check and set the height sensors');
      await page.waitForTimeout(200);
      expect((await page.locator('#results').innerText()).includes('Check and set the height sensors')).toBe(false);
      await open('corrie-9/row-6x30/check-height-sensor/');
      expect(await page.getByRole('alert').innerText()).toContain('not for the machine that you chose');
    });
  });
});

describe('options said once', () => {
  it('open each procedure at its version from then on; what is not known is asked as before', async () => {
    await onPhone(async (page, open) => {
      await open(`${rig}learn-height-range/`);
      expect(await page.getByRole('heading', { name: 'Which one is yours?' }).isVisible()).toBe(true);
      await open(`${rig}rig.html`);
      await page.getByRole('radio', { name: '3.10' }).check();
      await page.getByRole('button', { name: 'Remember it' }).click();
      await page.waitForURL(`**/${rig}`);
      await open(`${rig}learn-height-range/`);
      await page.waitForURL('**/display-3.10/');
      // a link to the page of another version says so
      await open(`${rig}learn-height-range/display-4.2/`);
      expect(await page.getByRole('alert').innerText()).toContain('another version than the machine that you chose');
      await open(`${rig}values.html`);
      // versions that differ in a step alone have the same limits, and these are shown whichever it is
      const values = page.locator('section').filter({ hasText: 'Learn the header height range' });
      expect(await values.locator('.limits-inline').first().innerText()).toMatch(/\d\sV$/);
      expect(await values.locator('.limits-inline:visible').count()).toBeGreaterThan(1);
    });
  });
});
