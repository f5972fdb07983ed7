// What a person in a cab has before their eyes in the walk: the field that is typed into beside its verdict, the turn, what
// is still missing; and tables that are judged as they stand on the screen. At 360 px, with and without a keypad.

import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildDemoSite, openBrowser, type ServedSite, serveBelow } from './site-server.js';
import { next, step, walkOn } from './walk-on.js';

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
const massFlow = 'tarn-40/row-12x20/mass-flow/';
const { open, begin, standOn, goTo } = walkOn(() => ({ site, browser }));

const field = (page: Page) => page.locator('.walk-here .walk-field:not(.small)');

/** Whether an element lies between the head and the bar, where nothing covers it. */
async function isBare(page: Page, selector: string): Promise<boolean> {
  return page.evaluate((wanted) => {
    const box = document.querySelector(wanted)?.getBoundingClientRect();
    if (!box) return false;
    const at = (y: number) => document.elementFromPoint(box.x + box.width / 4, y);
    const bar = document.querySelector('.walk-bar');
    const top = document.querySelector('.walk-top');
    const isCovered = (y: number) => {
      const found = at(y);
      return found === null || bar?.contains(found) === true || top?.contains(found) === true;
    };
    return !isCovered(box.top + 2) && !isCovered(box.bottom - 2);
  }, selector);
}

/** All acts that the phone has kept of jobs, as text. */
function keptActs(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const [found] = await indexedDB.databases();
    return new Promise<string>((resolve, reject) => {
      const opening = indexedDB.open(found?.name ?? '');
      opening.onerror = () => reject(opening.error);
      opening.onsuccess = () => {
        const all = opening.result.transaction('entries').objectStore('entries').getAll();
        all.onsuccess = () => resolve(JSON.stringify(all.result));
        all.onerror = () => reject(all.error);
      };
    });
  });
}

describe('a reading that is typed', () => {
  it('stays in sight with its limits while the verdict comes up', async () => {
    const page = await standOn('tarn-40/row-12x20/set-response/with-ride-damping/', '3');
    await field(page).locator('input').click();
    await page.keyboard.type('9');
    await page.locator('.walk-verdict.fail').waitFor();
    await expect.poll(() => isBare(page, '.walk-here .walk-field')).toBe(true);
    await expect.poll(() => isBare(page, '.walk-here .value .limits')).toBe(true);
    await page.context().close();
  });

  it('stays in sight above a keypad, with verdict and way on', async () => {
    for (const path of [sensors, `es/${sensors}`]) {
      const page = await standOn(path, '9');
      await field(page).locator('input').click();
      await page.setViewportSize({ width: 360, height: 370 });
      await page.keyboard.type('3.21');
      await page.locator('.walk-verdict.fail').waitFor();
      await expect.poll(() => isBare(page, '.walk-here .walk-field')).toBe(true);
      const bar = await page.locator('.walk-bar').boundingBox();
      expect((bar?.y ?? 0) + (bar?.height ?? 999)).toBeLessThanOrEqual(371);
      await page.context().close();
    }
  });
});

describe('a reading that cannot be', () => {
  it('is asked after as a slip of the finger before it is called a fault', async () => {
    const page = await standOn('tarn-40/row-12x20/learn-height-range/display-4.2/', '3');
    await field(page).locator('input').fill('405');
    expect(await page.locator('.walk-verdict').textContent()).toMatch(
      /Fault.*Voltage on the display shows only 0 to 5\sV\. Look at point and unit/,
    );
    await field(page).locator('input').fill('0.1');
    expect(await page.locator('.walk-verdict').textContent()).toContain('It reads only from');
    await page.context().close();
  });
});

describe('the call to service', () => {
  it('says why, on the screen and in the text that is sent', async () => {
    const page = await standOn('tarn-40/row-12x20/learn-height-range/display-4.2/', '3');
    await field(page).locator('input').fill('4.9');
    for (let at = await step(page); at !== null; ) {
      if (await page.locator('.walk-timer button').count()) await page.locator('.walk-timer button').last().click();
      await next(page).click();
      await page.locator(`.walk-here:not(#${at})`).first().waitFor();
      at = (await page.locator('.step.walk-here').count()) > 0 ? await step(page) : null;
    }
    expect(await page.locator('.walk-end').textContent()).toContain('A height sensor or its wire is broken.');
    expect(await page.locator('.walk-call textarea').inputValue()).toMatch(
      /step 3: A height sensor or its wire is broken\./,
    );
    await page.context().close();
  });
});

describe('the turn that was worked out', () => {
  it('stands beside the way on, without looking for it', async () => {
    const page = await standOn(sensors, '9');
    await field(page).locator('input').fill('3.21');
    await next(page).click();
    await page.locator('#step-10.walk-here').waitFor();
    await goTo(page, '11');
    expect(await page.locator('.walk-bar .walk-verdict').textContent()).toBe(
      'Turn 12.0° clockwise, seen from the left end of the header',
    );
    await page.context().close();
  });

  it('says how to go on where no turn can do it', async () => {
    const page = await standOn(sensors, '9');
    await field(page).locator('input').fill('2.6');
    await next(page).click();
    await page.locator('#step-10.walk-here').waitFor();
    await goTo(page, '11');
    expect(await page.locator('.walk-bar .walk-verdict').textContent()).toMatch(
      /No turn can bring this inside.*Do not force it.*next reading leads on.*555/,
    );
    await page.context().close();
  });
});

describe('what is still missing', () => {
  it('is brought into sight when the way on is tried', async () => {
    const page = await open(sensors);
    await page.locator('.walk-go').click();
    await next(page).click();
    await page.locator('#before.walk-here').waitFor();
    for (const box of await page.locator('#before.walk-here input').all()) await box.check();
    await next(page).click({ force: true });
    await expect.poll(() => isBare(page, '.walk-skill b')).toBe(true);
    await page.locator('.walk-skill > button').click();
    await page.locator('.walk-skill').waitFor({ state: 'detached' });
    await page.locator('#before.walk-here input').last().uncheck();
    await page.evaluate(() => scrollTo(0, 0));
    await next(page).click({ force: true });
    await expect.poll(() => isBare(page, '#before.walk-here li:last-child input')).toBe(true);
    await page.context().close();
  });

  it('is seen where the finger is once it is marked', async () => {
    const page = await standOn(sensors, '8');
    const mark = page.locator('.walk-marks button').nth(1);
    await mark.scrollIntoViewIfNeeded();
    const before = await mark.boundingBox();
    await mark.click();
    await page.locator('.walk-marks [aria-pressed="true"]').waitFor();
    expect(Math.abs(((await mark.boundingBox())?.y ?? 0) - (before?.y ?? 999))).toBeLessThan(8);
    await page.context().close();
  });
});

describe('a table', () => {
  async function fill(page: Page): Promise<void> {
    for (const [i, row] of (await page.locator('.walk-table tbody tr').all()).entries()) {
      await row.locator('select').selectOption({ index: 1 + (i % 3) });
      await row
        .locator('input')
        .nth(0)
        .fill(String(10_100 + i));
      await row.locator('input').nth(1).fill('10000');
    }
  }

  it('is not judged while one of its cells is no number, not even by a quick finger', async () => {
    const page = await standOn(massFlow, '11');
    await fill(page);
    await page.locator('.walk-verdict.pass').waitFor();
    const last = page.locator('.walk-table tbody tr').last().locator('input').nth(1);
    await last.click();
    await last.fill('9.980,5');
    expect(await page.locator('.walk-verdict').count()).toBe(0);
    await next(page).dispatchEvent('click');
    expect(await step(page)).toBe('step-11');
    expect(await page.locator('.walk-missing').textContent()).toMatch(
      /Row 6, Wet net mass on the ticket: This is no number/,
    );
    await page.context().close();
  });

  it('stands open at the step that writes a row, goes on at the first press, and holds the row where it is judged', async () => {
    const page = await standOn(massFlow, '9');
    const cell = page.locator('.walk-table tbody tr').first().locator('input').first();
    expect(await page.locator('.walk-sheet').count()).toBe(0);
    // where the table stands before one's eyes, nobody is sent to it
    expect(await page.locator('#step-9 .into').isVisible()).toBe(false);
    await cell.fill('998');
    await next(page).click();
    await page.locator('#step-10.walk-here').waitFor();
    expect(await page.locator('.walk-sheet summary').textContent()).toContain('Weighed loads');
    await page.locator('.walk-bar').getByRole('button', { name: 'yes' }).click();
    await page.locator('#step-11.walk-here').waitFor();
    expect(await cell.inputValue()).toBe('998');
    await page.context().close();
  });

  it('keeps what is being typed when the phone dies', async () => {
    const page = await open(massFlow);
    await begin(page);
    const sheet = page.locator('.walk-sheet');
    await sheet.locator('summary').click();
    const cell = sheet.locator('tbody tr').first().locator('input').first();
    await cell.focus();
    await page.keyboard.type('998');
    await expect.poll(() => keptActs(page)).toContain('998');
    await page.reload();
    await page.locator('.walk-go').click();
    await sheet.locator('summary').click();
    expect(await cell.inputValue()).toBe('998');
    await page.context().close();
  });

  it('has every field of a row on the screen of a phone', async () => {
    for (const width of [320, 360]) {
      const page = await standOn(massFlow, '11', { width, height: 640 });
      for (const input of await page.locator('.walk-table tbody tr').first().locator('input, select').all()) {
        const box = await input.boundingBox();
        expect(box?.x).toBeGreaterThanOrEqual(0);
        expect((box?.x ?? 0) + (box?.width ?? 999)).toBeLessThanOrEqual(width);
        expect(box?.height).toBeGreaterThanOrEqual(56);
      }
      await page.context().close();
    }
  });
});

describe('the head of the walk', () => {
  it('names the whole rig, and shows two lines of the state and all of it at a tap', async () => {
    const page = await standOn('tarn-40/row-12x20/learn-height-range/display-4.2/', '3', { width: 360, height: 640 });
    const rig = page.locator('.walk-rig');
    expect(await rig.textContent()).toContain('display software 4.2');
    expect(await rig.evaluate((one) => one.scrollWidth <= one.clientWidth)).toBe(true);
    const strip = page.locator('.walk-strip');
    const before = (await strip.boundingBox())?.height ?? 0;
    expect(before).toBeGreaterThanOrEqual(44);
    await strip.locator('summary').click();
    await expect.poll(async () => (await strip.boundingBox())?.height ?? 0).toBeGreaterThan(before + 10);
    expect(await strip.textContent()).toContain('Where you are in the cab');
    await page.context().close();
  });
});

describe('two windows with one job', () => {
  it('stand at the same step: what one does leads the other', async () => {
    const page = await open(sensors);
    await begin(page);
    const other = await page.context().newPage();
    await other.goto(site.address + sensors);
    await other.locator('.walk-go').click();
    expect(await step(other)).toBe('step-1');
    await next(other).click();
    await other.locator('#step-2.walk-here').waitFor();
    await page.locator('#step-2.walk-here').waitFor();
    await next(page).click();
    await other.locator('#step-3.walk-here').waitFor();
    await page.reload();
    expect(await page.locator('.walk-go').textContent()).toBe('Go on: step 3');
    await page.locator('.walk-go').click();
    expect(await step(page)).toBe('step-3');
    await page.context().close();
  });
});

describe('a page that opens', () => {
  it('moves nothing while its script begins: the button to start and the one for a wrong page have their place', async () => {
    const page = await browser.newPage({ viewport: { width: 360, height: 640 } });
    await page.addInitScript(() => {
      const moved: number[] = [];
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries()) moved.push((entry as PerformanceEntry & { value: number }).value);
      }).observe({ type: 'layout-shift', buffered: true });
      Object.assign(window, { moved });
    });
    await page.goto(`${site.address}${massFlow}`);
    await page.locator('#walk-start .walk-go').waitFor();
    await page.locator('#page-wrong').waitFor();
    // two frames: what moved in the first is told by the second
    const moved = await page.evaluate(async () => {
      for (let i = 0; i < 2; i += 1) await new Promise((done) => requestAnimationFrame(done));
      return (window as unknown as { moved: readonly number[] }).moved;
    });
    // good is at most 0.1 in the sum, which Lighthouse begins to mark down at a tenth of that
    expect(moved.reduce((sum, value) => sum + value, 0)).toBeLessThan(0.01);
    await page.close();
  });
});
