// The page of calculators in a real browser: worked out as it is typed, carried by a link, readable without script.
// biome-ignore-all lint/performance/useDomNodeTextContent: what a person sees counts, not what the markup holds

import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bookOf } from '../emit-pages/books.js';
import { smallTexts } from '../emit-pages/small-book.js';
import { buildSite, openBrowser, type ServedSite, serveBelow } from './site-server.js';

let browser: Browser;
let site: ServedSite;

beforeAll(async () => {
  const pass = ['missing-language', 'raw-html', 'unknown-procedure'];
  site = await serveBelow('/books/header/', buildSite(bookOf(smallTexts(), { pass })));
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  site?.server.close();
});

async function on<T>(path: string, options: BrowserContextOptions, run: (page: Page) => Promise<T>): Promise<T> {
  const context = await browser.newContext({ viewport: { width: 360, height: 640 }, ...options });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', (fault) => faults.push(String(fault)));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  await page.goto(site.address + path);
  const result = await run(page);
  expect(faults).toEqual([]);
  await context.close();
  return result;
}

const outcome = (page: Page, id: string, name: string): Promise<string> =>
  page.locator(`#${id} [data-outcome="${name}"]`).innerText();

describe('the calculators', () => {
  it('work out what is typed, with its uncertainty, by keyboard alone', async () => {
    await on('calculators.html', {}, async (page) => {
      expect(await outcome(page, 'width-area', 'width')).toBe('20\u00a0ft\n6.096\u00a0m');
      await page.locator('#width-area-rows').focus();
      await page.keyboard.press('Control+A');
      await page.keyboard.type('8');
      await page.keyboard.press('Tab');
      await page.keyboard.press('Control+A');
      await page.keyboard.type('30 ± 0.5');
      expect(await outcome(page, 'width-area', 'width')).toMatch(/^20\.00 ± 0\.39\sft\nfor sure 19\.66 to 20\.34\sft/);
      expect(await page.locator('#width-area svg').getAttribute('aria-label')).toContain('Rows: 8');
    });
  });

  it('say what cannot be read, and give no result then', async () => {
    await on('calculators.html', {}, async (page) => {
      await page.locator('#speed-time').fill('twelve');
      expect(await page.locator('#speed-time-fault').innerText()).toContain('cannot be read');
      expect(await page.locator('#speed-time').getAttribute('aria-invalid')).toBe('true');
      expect(await outcome(page, 'speed', 'speed')).toBe('—');
      await page.locator('#sensor-turn-moves').fill('0');
      expect(await outcome(page, 'sensor-turn', 'turn')).toBe('No value with these numbers.');
    });
  });

  it('give no result for what cannot be, and say why at the field', async () => {
    await on('calculators.html', {}, async (page) => {
      await page.locator('#speed-time').fill('-4');
      expect(await page.locator('#speed-time-fault').innerText()).toBe('This cannot be: it is more than 0.');
      expect(await outcome(page, 'speed', 'speed')).toBe('—');
      await page.locator('#shrink-moisture').fill('120');
      expect(await page.locator('#shrink-moisture-fault').innerText()).toBe(
        'This cannot be: it is less than 100\u00a0%.',
      );
      await page.locator('#loss-before').fill('130');
      expect(await page.locator('#loss-before-fault').innerText()).toBe(
        'This cannot be more than: Seeds in the frame behind the machine.',
      );
      expect(await outcome(page, 'loss', 'loss')).toBe('—');
    });
  });

  it('leave no load out in silence', async () => {
    await on('calculators.html', {}, async (page) => {
      const factor = await outcome(page, 'loads', 'factor');
      const third = page.locator('#loads tbody tr').nth(2).locator('input[name="scale"]');
      await third.fill('x');
      expect(await page.locator('#loads [data-note]').innerText()).toContain('Load 3');
      expect(await outcome(page, 'loads', 'factor')).toBe('—');
      await third.fill('5000');
      expect(await outcome(page, 'loads', 'factor')).toBe(factor);
    });
  });

  it('carry their numbers in a link', async () => {
    const link = await on('calculators.html', {}, async (page) => {
      await page.locator('#shrink-moisture').fill('25');
      await page.locator('#shrink select[name="mass.unit"]').selectOption('kg');
      return page.locator('#shrink .numbers-link a').getAttribute('href');
    });
    await on(`calculators.html${link}`, {}, async (page) => {
      expect(await page.locator('#shrink-moisture').inputValue()).toBe('25');
      expect(await outcome(page, 'shrink', 'shrink')).toBe('11.24\u00a0%');
      expect(await page.locator('#shrink select[name="mass.unit"]').inputValue()).toBe('kg');
    });
  });

  it('calibrate by weighed loads and tell the one that spoils them', async () => {
    await on('calculators.html', {}, async (page) => {
      expect(await outcome(page, 'loads', 'factor')).toMatch(/^0\.9760 ± /);
      const masses = [1000, 2000, 3600, 4001, 5002];
      for (const [i, mass] of masses.entries()) {
        await page
          .locator('#loads input[name="shown"]')
          .nth(i)
          .fill(String((i + 1) * 1000));
        await page.locator('#loads input[name="scale"]').nth(i).fill(String(mass));
      }
      expect(await page.locator('#loads [data-note]').innerText()).toContain('Load 3 does not fit');
      expect(await page.locator('#loads svg .hollow').count()).toBe(2);
    });
  });

  it('show formula, source and a worked example without script', async () => {
    await on('es/calculators.html', { javaScriptEnabled: false }, async (page) => {
      expect(await page.locator('form:visible').count()).toBe(0);
      expect(await page.locator('#speed').innerText()).toContain('Velocidad = distancia / tiempo');
      expect(await outcome(page, 'speed', 'speed')).toBe('5\u00a0mph\n8.047\u00a0km/h');
      expect(await page.locator('#speed .example').isVisible()).toBe(true);
    });
  });
});
