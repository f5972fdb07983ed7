// The built demo as an operator uses it: on a phone of 360 px, below a base path, with and without script, by day and night.
// biome-ignore-all lint/performance/useDomNodeTextContent: what a person sees counts, not what the markup holds

import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { signalFaults } from './accessibility.js';
import { buildDemoSite, openBrowser, type ServedSite, serveBelow } from './site-server.js';
import { type Visit, visit } from './visit.js';

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

const on: Visit = (path, options, run) => visit(browser, site, path, options, run);

const rig = 'tarn-40/row-12x20/';

describe('an operator with a phone', () => {
  it('chooses machine and header, searches with a slip, sees the limits, and opens the procedure', async () => {
    await on('', {}, async (page) => {
      await page.getByRole('link', { name: 'Tarn 40' }).first().click();
      await page.getByRole('link', { name: '12-row header' }).first().click();
      await page.getByRole('searchbox').fill('senser voltage raised');
      const hit = page.locator('.hit').first();
      await hit.waitFor();
      // above a keypad the box stands at the top and what is found below it
      expect((await page.getByRole('searchbox').boundingBox())?.y).toBeLessThan(110);
      expect((await hit.boundingBox())?.y).toBeLessThan(230);
      const words = (await hit.innerText()).replaceAll('\u00a0', ' ');
      expect(words).toContain('Learn the header height range');
      expect(words).toContain('0.73 to 1.07 V');
      expect(await page.locator('.hit mark').first().innerText()).toMatch(/sensor/i);
      await hit.getByRole('link', { name: /raised/ }).click();
      await page.locator('h1', { hasText: 'Learn the header height range' }).waitFor();
    });
  });

  it('finds the page of a code as soon as it is typed', async () => {
    const code = await on(`${rig}mass-flow/`, {}, (page) => page.locator('.meta .code').innerText());
    await on('codes.html', {}, async (page) => {
      await page.getByLabel('Code').fill(`${code.replace(/\s/g, ' ').toLowerCase()} 7`);
      expect(await page.getByRole('status').innerText()).toContain('Calibrate the mass flow');
      await page.keyboard.press('Enter');
      await page.waitForURL(`**/${rig}mass-flow/#step-7`);
    });
    await on(`c/${code.replace(/\s/g, '').toLowerCase()}/#step-7`, {}, async (page) => {
      await page.waitForURL(`**/${rig}mass-flow/#step-7`);
      expect(await page.locator('#step-7').isVisible()).toBe(true);
    });
    await on('codes.html', {}, async (page) => {
      await page.getByLabel('Code').fill('222222');
      expect(await page.getByRole('status').innerText()).toContain('No page has this code now');
    });
  });

  it('is offered the machine chosen last', async () => {
    await on(rig, {}, async (page) => {
      await page.goto(site.address);
      await page.getByRole('link', { name: /Go on with Tarn 40/ }).click();
      expect(new URL(page.url()).pathname).toBe(`/books/header/${rig}`);
    });
  });

  it('sees the values of the own rig', async () => {
    const values = await on(`${rig}values.html`, {}, (page) => page.locator('.rows:has(.limits-inline)').count());
    expect(values).toBeGreaterThan(4);
  });

  it('reads a procedure with everything it needs at a step', async () => {
    await on(`${rig}check-height-sensor/`, {}, async (page) => {
      expect(await page.locator('h1').innerText()).toBe('Check and set the height sensors');
      const step = page.locator('#step-9');
      expect(await step.locator('.limits').innerText()).toBe('3.624 to 4.173\u00a0V');
      expect(await step.locator('svg.gauge').count()).toBe(1);
      expect(await step.innerText()).toMatch(/Outside: .*Go to step\s10/);
      await step.getByRole('link', { name: /step\s10/ }).click();
      expect(new URL(page.url()).hash).toBe('#step-10');
    });
  });
});

describe('without script', () => {
  it('everything is listed and reads; the box that would do nothing is not shown', async () => {
    await on(rig, { javaScriptEnabled: false }, async (page) => {
      expect(await page.getByRole('searchbox').isVisible()).toBe(false);
      await page.getByRole('link', { name: /Calibrate the mass flow/ }).click();
      expect(await page.locator('h1').innerText()).toBe('Calibrate the mass flow with weighed loads');
      const first = page.getByRole('checkbox').first();
      await first.check();
      expect(await first.isChecked()).toBe(true);
      await page.locator('summary', { hasText: 'More about this step' }).first().click();
      expect(await page.locator('details[open] .prose').first().isVisible()).toBe(true);
    });
  });
});

describe('a procedure', () => {
  it('keeps the contrast of its signal words above 4.5 to 1, large and bold', async () => {
    await on(`${rig}check-height-sensor/`, {}, async (page) => {
      expect(await signalFaults(page)).toBe(0);
      expect(await page.locator('.signal').count()).toBeGreaterThan(3);
    });
  });

  it('prints whole: no fold hides a step', async () => {
    await on(`${rig}check-height-sensor/`, {}, async (page) => {
      await page.emulateMedia({ media: 'print' });
      const height = await page
        .locator('details', { hasText: 'More about this step' })
        .first()
        .locator('.prose')
        .evaluate((prose) => prose.getBoundingClientRect().height);
      expect(height).toBeGreaterThan(10);
      expect((await page.pdf({ format: 'Letter' })).length).toBeGreaterThan(10_000);
    });
  });
});
