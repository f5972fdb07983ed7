// The walk through a procedure in a real browser, at the size of a phone: readings that pass, fail and are too close to
// call, a turn worked out, everything still there after a reload, by keyboard alone, and in Spanish.

import { gzipSync } from 'node:zlib';
import axe, { type AxeResults } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildDemoSite, openBrowser, type ServedSite, serveBelow } from './site-server.js';
import { isInSight, next, step, walkOn } from './walk-on.js';

let site: ServedSite;
let browser: Browser;

beforeAll(async () => {
  site = await serveBelow('/books/demo/', buildDemoSite());
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  site?.server.close();
});

const sensors = 'tarn-40/row-12x20/check-height-sensor/';
const { open, begin, standOn, goTo } = walkOn(() => ({ site, browser }));

/** As it comes over the air; faces are packed already. */
function packed(url: string, body: Buffer): number {
  return url.endsWith('.woff2') ? body.length : gzipSync(body, { level: 9 }).length;
}

async function faultsIn(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  const found = await page.evaluate(async () => {
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const { axe: run } = globalThis as unknown as { axe: { run(options: unknown): Promise<AxeResults> } };
    return run.run({ runOnly: tags, rules: { region: { enabled: false } } });
  });
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
}

describe('a page with a walk', () => {
  it('fetches at most 40 kB before its pictures', async () => {
    const context = await browser.newContext({ viewport: { width: 360, height: 640 } });
    const page = await context.newPage();
    const bodies: Promise<readonly [string, number]>[] = [];
    page.on('response', (response) => {
      const size = async () => [response.url(), packed(response.url(), await response.body())] as const;
      bodies.push(size());
    });
    await page.goto(site.address + sensors);
    await page.locator('.walk-go').waitFor();
    await page.waitForLoadState('networkidle');
    const sizes = (await Promise.all(bodies)).filter(([url]) => !/\.(?:svg|png|jpe?g)$/.test(url));
    const sum = sizes.reduce((total, [, size]) => total + size, 0);
    expect(sum, JSON.stringify(sizes)).toBeLessThan(40 * 1024);
    await context.close();
  });

  it('is clear to assistive technology at every kind of place, in both colour schemes', async () => {
    for (const colorScheme of ['light', 'dark'] as const) {
      const page = await standOn(sensors, '9');
      await page.emulateMedia({ colorScheme });
      await page.locator('.walk-here .walk-field input').fill('3.31');
      expect(await faultsIn(page)).toEqual([]);
      await next(page).click();
      await page.locator('#step-10.walk-here').waitFor();
      await goTo(page, '11');
      expect(await faultsIn(page)).toEqual([]);
      await page.context().close();
      const table = await standOn('es/tarn-40/row-12x20/mass-flow/', '11');
      await table.emulateMedia({ colorScheme });
      expect(await faultsIn(table)).toEqual([]);
      await table.context().close();
    }
  });
});

describe('the walk', () => {
  it('judges readings, works out the turn, and keeps all of it over a reload', async () => {
    const page = await open(sensors);
    await begin(page);
    await goTo(page, '9');
    const field = page.locator('.walk-here .walk-field input');
    await next(page).click({ force: true });
    expect(await page.locator('.walk-missing').textContent()).toContain('Height sensor on the left side');
    await field.fill('3,31');
    expect(await page.locator('.walk-verdict').textContent()).toMatch(/Outside.*0\.31\d?\sV too low/);
    await expect.poll(() => isInSight(page, '.walk-verdict')).toBe(true);
    await expect.poll(() => isInSight(page, '.walk-bar .main')).toBe(true);
    expect(await next(page).textContent()).toBe('Go to step 10');

    // a flat battery while a number is being typed
    await page.reload();
    await page.locator('.walk-go').click();
    expect(await field.inputValue()).toBe('3,31');
    await next(page).click();
    await page.locator('#step-10.walk-here').waitFor();
    await goTo(page, '11');
    const turn = page.locator('.walk-turn-by');
    expect(await turn.textContent()).toMatch(/^Turn 12\.0° clockwise, seen from the left end of the header$/);
    expect(await page.locator('.walk-turn-words').textContent()).toMatch(/should then read 3\.850\sV/);

    await page.reload();
    expect(await page.locator('.walk-go').textContent()).toBe('Go on: step 11');
    await page.locator('.walk-go').click();
    expect(await turn.textContent()).toContain('Turn 12.0°');
    await goTo(page, '13');
    await page.locator('.walk-here .walk-field input').fill('3.86');
    expect(await page.locator('.walk-verdict').textContent()).toContain('Inside');
    await next(page).click();
    await page.locator('#step-14.walk-here').waitFor();
    await page.context().close();
  });

  it('says that a reading is a fault of the sensor, and leads away from the adjuster', async () => {
    const page = await standOn(sensors, '9');
    await page.locator('.walk-here .walk-field input').fill('0.1');
    expect(await page.locator('.walk-verdict').textContent()).toContain('Fault');
    expect(await next(page).textContent()).toBe('Go to step 26');
    await page.context().close();
  });

  it('asks for a point or a comma where it cannot tell, and takes no word for a number', async () => {
    const page = await standOn(sensors, '6');
    const field = page.locator('.walk-here .walk-field input');
    await field.fill('4,998');
    expect(await page.locator('.walk-here .walk-why').textContent()).toBe('Point or comma? Type 4.998 or 4998.');
    await field.fill('about five');
    expect(await page.locator('.walk-here .walk-why').textContent()).toContain('This is no number');
    expect(await next(page).getAttribute('aria-disabled')).toBe('true');
    await page.context().close();
  });

  it('calls a reading too close to call under three zones', async () => {
    const page = await standOn('tarn-40/row-12x20/set-response/with-ride-damping/', '3');
    const shown = (await page.locator('.walk-here .value .limits').textContent()) ?? '';
    const low = Number(/[\d.]+/.exec(shown)?.[0]);
    await page.locator('.walk-here .walk-field input').fill(String(low - 0.05));
    expect(await page.locator('.walk-verdict').textContent()).toMatch(/Too close to call.*inside or outside/);
    await page.context().close();
  });

  it('shows a caution whole where it is met, and as one line while it lasts', async () => {
    const page = await standOn(sensors, '7');
    expect(await page.locator('.walk-hazards > .hazard').count()).toBeGreaterThan(0);
    await goTo(page, '8');
    expect(await page.locator('.walk-hazards > .hazard-line').count()).toBeGreaterThan(0);
    const line = await page.locator('.hazard-line summary').first().boundingBox();
    expect(line?.height).toBeLessThan(60);
    await page.context().close();
  });

  it('makes safe first, then calls service with the readings ready to send', async () => {
    const page = await standOn(sensors, '6');
    await page.locator('.walk-here .walk-field input').fill('4.1');
    await next(page).click();
    await page.locator('#step-26.walk-here').waitFor();
    await goTo(page, 'E1');
    await goTo(page, 'E8');
    await next(page).click();
    await page.locator('.walk-end').waitFor();
    expect(await page.locator('.walk-end h2').textContent()).toBe('Call service');
    expect(await page.locator('.walk-call textarea').inputValue()).toMatch(/4\.1\u00a0V \(Outside, Limits/);
    expect(await page.locator('.leaves .states').count()).toBeGreaterThan(0);
    expect(await page.locator('.leaves .states').first().isVisible()).toBe(false);
    await page.context().close();
  });

  it('works by keyboard alone', async () => {
    const page = await open('tarn-40/row-12x20/shut-down/');
    await page.locator('.walk-go').focus();
    await page.keyboard.press('Enter');
    await next(page).waitFor();
    const pressTo = async (isThere: () => boolean): Promise<void> => {
      for (let i = 0; i < 60; i += 1) {
        if (await page.evaluate(isThere)) return;
        await page.keyboard.press('Tab');
      }
      throw new Error('The keyboard does not get there');
    };
    const onNext = (): boolean => document.activeElement?.matches('.walk-bar .main') ?? false;
    await pressTo(onNext);
    await page.keyboard.press('Enter');
    await page.locator('#before.walk-here').waitFor();
    for (let i = await page.locator('#before input').count(); i > 0; i -= 1) {
      await pressTo(() => document.activeElement?.matches('#before input:not(:checked)') ?? false);
      await page.keyboard.press('Space');
    }
    await page.locator('.walk-bar .main:not([aria-disabled])').waitFor();
    await pressTo(onNext);
    await page.keyboard.press('Enter');
    await page.locator('.step.walk-here').waitFor();
    expect(await step(page)).toBe('step-1');
    await page.context().close();
  });

  it('speaks Spanish on a Spanish page, at 320 px, with nothing beside the screen', async () => {
    const page = await standOn(`es/${sensors}`, '9', { width: 320, height: 560 });
    await page.locator('.walk-here .walk-field input').fill('3,31');
    expect(await page.locator('.walk-verdict').textContent()).toMatch(/Fuera.*demasiado bajo/);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    await expect.poll(() => isInSight(page, '.walk-bar .main')).toBe(true);
    await page.context().close();
  });

  it('offers the words to choose from in the language of the page, and keeps the one of the book', async () => {
    for (const [path, words] of [
      ['es/tarn-40/row-12x20/mass-flow/', ['bajo', 'medio', 'alto']],
      ['tarn-40/row-12x20/mass-flow/', ['low', 'medium', 'high']],
    ] as const) {
      const page = await standOn(path, '11');
      const options = page.locator('.walk-table select').first().locator('option');
      expect((await options.allTextContents()).slice(1)).toEqual(words);
      const values = await options.evaluateAll((all) => all.map((one) => (one as HTMLOptionElement).value));
      expect(values).toEqual(['', 'low', 'medium', 'high']);
      await page.context().close();
    }
  });

  it('leaves room for the step with text at 200 %', async () => {
    const page = await standOn(sensors, '9');
    await page.evaluate(() => {
      document.documentElement.style.fontSize = '212.5%';
    });
    await page.locator('.walk-here .walk-field input').fill('3.31');
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    const [top, bar] = [await page.locator('.walk-top').boundingBox(), await page.locator('.walk-bar').boundingBox()];
    expect((bar?.y ?? 0) - (top?.y ?? 0) - (top?.height ?? 0)).toBeGreaterThan(90);
    await page.context().close();
  });

  it('goes back with the button of the phone, and keeps nothing in practice', async () => {
    const page = await open(`${sensors}?practice`);
    await begin(page);
    await goTo(page, '2');
    await page.goBack();
    await page.locator('#step-1.walk-here').waitFor();
    expect(await page.locator('.walk-mode').textContent()).toContain('Practice');
    await page.goto(site.address + sensors);
    expect(await page.locator('.walk-go').textContent()).toBe('Start, one step at a time');
    await page.context().close();
  });

  it('takes the desk to the step that was read out', async () => {
    const page = await standOn(sensors, '9');
    await page.locator('.walk-here .walk-field input').fill('3.9');
    expect(await page.locator('.walk-verdict').textContent()).toContain('Inside');
    await page.context().close();
  });

  it('fills a table in and judges its results', async () => {
    const page = await standOn('tarn-40/row-12x20/mass-flow/', '11');
    const rows = await page.locator('.walk-table tbody tr').all();
    expect(rows.length).toBe(6);
    for (const [i, row] of rows.entries()) {
      await row.locator('select').selectOption({ index: 1 + (i % 3) });
      const [shown, scale] = await row.locator('input').all();
      await shown?.fill(String(10_100 + i));
      await scale?.fill('10 000'.replace(' ', ''));
      await scale?.press('Tab');
    }
    const results = page.locator('.walk-results');
    await results.getByText('1.0').first().waitFor();
    expect(await results.textContent()).toContain('Mean error');
    expect(await page.locator('.walk-verdict').textContent()).toContain('Inside');
    await page.context().close();
  });
});
