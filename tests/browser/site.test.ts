// The built demo as an operator uses it: on a phone of 360 px, below a base path, with and without script, by day and night.
// biome-ignore-all lint/performance/useDomNodeTextContent: what a person sees counts, not what the markup holds

import { createRequire } from 'node:module';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildDemoSite, openBrowser, type ServedSite, serveBelow } from './site-server.js';

const axePath = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const phone = { width: 360, height: 740 };

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

/** Opens a page, runs what is wanted, and sees that nothing was asked of any other host and nothing went wrong in it. */
async function on<T>(path: string, options: BrowserContextOptions, run: (page: Page) => Promise<T>): Promise<T> {
  const context = await browser.newContext({ viewport: phone, ...options });
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

const rig = 'tarn-40/row-12x20/';

/** One page of each kind. */
const kinds: readonly string[] = [
  '',
  'tarn-40/',
  rig,
  `${rig}symptoms.html`,
  `${rig}changes.html`,
  `${rig}values.html`,
  `${rig}check-height-sensor/`,
  `${rig}learn-height-range/display-4.2/`,
  `${rig}mass-flow/`,
  `${rig}park-for-season/`,
  `${rig}rig.html`,
  `${rig}learn-height-range/`,
  `${rig}learn-height-range/any/`,
  'any/',
  'any/learn-height-range/',
  'units.html',
  'u/unit-17/',
  'staff/',
  `staff/questions/${rig}`,
  `staff/clinic/${rig}`,
  'staff/coverage.html',
  'staff/proofs.html',
  'es/staff/changes/unit-17/',
  'es/staff/reviews.html',
  'codes.html',
  'calculators.html',
  'es/calculators.html',
  'es/',
  `es/${rig}`,
  `es/${rig}symptoms.html`,
  'es/any/one-side-digs-in/',
  'es/u/unit-17/',
  `es/${rig}rig.html`,
  `es/${rig}learn-height-range/display-4.2/`,
  `es/${rig}mass-flow/`,
];

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

  it('sees nothing of what a page hides: neither the values of another rig nor what a script has left out', async () => {
    for (const path of kinds) {
      const shown = await on(path, {}, (page) =>
        page.evaluate(() =>
          [...document.querySelectorAll<HTMLElement>('[hidden]')]
            .filter((one) => one.checkVisibility({ visibilityProperty: true }))
            .map((one) => one.outerHTML.slice(0, 80)),
        ),
      );
      expect({ path, shown }).toEqual({ path, shown: [] });
    }
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

describe('every kind of page', () => {
  // WCAG 2.2 levels A and AA, and 1.4.6 Contrast (Enhanced) of level AAA, by axe-core
  for (const colorScheme of ['light', 'dark'] as const) {
    it(`has no fault of accessibility, ${colorScheme}`, async () => {
      for (const path of kinds) {
        const faults = await on(path, { colorScheme, bypassCSP: true }, async (page) => {
          await page.addScriptTag({ path: axePath });
          await page.evaluate(() => {
            for (const fold of document.querySelectorAll('details')) fold.open = true;
          });
          return page.evaluate(async () => {
            const { axe } = window as unknown as { axe: typeof import('axe-core') };
            // safety panels keep the colours of their standard: their contrast is held by the next test
            const found = await axe.run(
              { exclude: ['.signal'] },
              {
                runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
                rules: { 'color-contrast-enhanced': { enabled: true } },
              },
            );
            // a rule that was not run would find nothing
            if (!found.passes.some(({ id }) => id === 'color-contrast-enhanced')) return ['contrast was not measured'];
            return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html} ${nodes[0]?.failureSummary}`);
          });
        });
        expect([path, faults]).toEqual([path, []]);
      }
    }, 180_000);
  }

  it('keeps the contrast of its signal words above 4.5 to 1, large and bold', async () => {
    await on(`${rig}check-height-sensor/`, { bypassCSP: true }, async (page) => {
      await page.addScriptTag({ path: axePath });
      const faults = await page.evaluate(async () => {
        const { axe } = window as unknown as { axe: typeof import('axe-core') };
        const found = await axe.run({ include: ['.signal'] }, { runOnly: ['color-contrast'] });
        return found.violations.length;
      });
      expect(faults).toBe(0);
      expect(await page.locator('.signal').count()).toBeGreaterThan(3);
    });
  });

  // WCAG 2.2, 1.4.10 Reflow at 320 CSS px, and 1.4.4 Resize Text up to 200 percent
  it('scrolls in one direction only at 320 px, also with text at 200 %', async () => {
    for (const path of kinds) {
      const widths = await on(path, { viewport: { width: 320, height: 640 }, bypassCSP: true }, async (page) => {
        const plain = await page.evaluate(() => document.documentElement.scrollWidth);
        await page.addStyleTag({ content: 'html { font-size: 212.5% }' });
        return [plain, await page.evaluate(() => document.documentElement.scrollWidth)];
      });
      expect([path, widths]).toEqual([path, [320, 320]]);
    }
  }, 120_000);

  // 44 px: WCAG 2.2, 2.5.5 Target Size (Enhanced); links within a sentence are excepted there
  it('gives thumbs in gloves something to hit', async () => {
    for (const path of kinds) {
      const small = await on(path, {}, (page) =>
        page.evaluate(() =>
          [
            ...document.querySelectorAll<HTMLElement>(
              '.choices a, .entries a, .ticks label, summary, .way a, .search input, .skip',
            ),
          ]
            .filter((target) => !target.matches('.skip') && target.offsetParent !== null)
            .filter(
              (target) =>
                target.getBoundingClientRect().height <
                (target.matches('.entries > li > a, .choices a, .ticks label, .search input') ? 56 : 44),
            )
            .map(
              (target) =>
                `${target.className} ${target.textContent?.slice(0, 40)} ${target.getBoundingClientRect().height}`,
            ),
        ),
      );
      expect([path, small]).toEqual([path, []]);
    }
  }, 120_000);

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
