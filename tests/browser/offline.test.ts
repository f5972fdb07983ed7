// A machine kept on a phone, in a real browser: kept whole, opened without signal, changed only when asked, and stopped from
// being followed when it no longer holds. The server is really gone where it says so.
// biome-ignore-all lint/performance/useDomNodeTextContent: what a person sees counts, not what the markup holds

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { exportPages } from '../../src/emit/offline/export-pages.js';
import { bookOf } from '../emit-pages/books.js';
import { smallTexts } from '../emit-pages/small-book.js';
import { browserOptions, bundle, openBrowser, type ServedSite, serveBelow } from './site-server.js';
import { edit, pass, siteWith } from './small-sites.js';

const home = 'tarn-40/row-12x20/';
const learn = `${home}learn-height-range/`;
const procedure = 'sensors/learn-height-range.md';
const first = siteWith(() => {});
const second = siteWith((texts) => {
  edit(texts, procedure, 'title: Learn the header height range', 'title: Learn the height range anew');
  edit(texts, procedure, /revision: (\d+)/, 'revision: 99');
});
const withdrawn = siteWith((texts) => edit(texts, procedure, 'status: released', 'status: withdrawn'));

let browser: Browser;
let site: ServedSite;
let context: BrowserContext;
let outside: string[] = [];

beforeAll(async () => {
  site = await serveBelow('/books/header/', first);
  browser = await openBrowser();
});

afterEach(async () => {
  await context?.close();
  site.files = first;
  site.isDown = false;
  // nothing is ever asked of another host, by pages or by the worker
  expect(outside).toEqual([]);
});

afterAll(async () => {
  await browser?.close();
  site?.server.close();
});

function watch(one: BrowserContext): BrowserContext {
  outside = [];
  one.on('request', (request) => {
    if (!request.url().startsWith(site.address)) outside.push(request.url());
  });
  return one;
}

async function phone(): Promise<Page> {
  context = watch(await browser.newContext({ viewport: { width: 360, height: 640 } }));
  return context.newPage();
}

async function keep(page: Page, path = home): Promise<void> {
  await page.goto(site.address + path);
  await page.locator('[data-do="keep"]').click();
  await page.locator('[data-say="kept"]').waitFor();
}

const title = (page: Page): Promise<string> => page.locator('h1').innerText();
const panel = (page: Page): Promise<string> => page.locator('#keep').innerText();

describe('a machine kept on the phone', () => {
  it('opens from a cold start without signal: start, home, search, procedure, picture, code of a card', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'stepgauge-phone-'));
    try {
      const before = watch(await chromium.launchPersistentContext(folder, browserOptions));
      const page = before.pages()[0] ?? (await before.newPage());
      await page.goto(site.address + home);
      await page.locator('[data-do="keep"]', { hasText: /\d/ }).waitFor();
      expect(await page.locator('[data-do="keep"]').innerText()).toMatch(
        /Keep this machine on this phone \(\d+(\.\d)?\s[kM]B\)/,
      );
      await keep(page);
      expect(await panel(page)).toMatch(/Kept on this phone since .*20\d\d/);
      await before.close();
      site.isDown = true;
      context = watch(await chromium.launchPersistentContext(folder, browserOptions));
      const cold = context.pages()[0] ?? (await context.newPage());
      const faults: string[] = [];
      cold.on('pageerror', (fault) => faults.push(String(fault)));
      await cold.goto(site.address);
      expect(await cold.locator('#kept a').innerText()).toMatch(/Tarn 40 · 12-row header.*\n.*since/);
      await cold.locator('#kept a').click();
      await cold.getByRole('searchbox').fill('raised');
      await cold.locator('.hit a[href*="learn-height-range"]').first().click();
      await cold.waitForURL(`**/${learn}**`);
      expect(await title(cold)).toBe('Learn the header height range');
      expect(await cold.locator('body').evaluate((body) => getComputedStyle(body).fontFamily)).toContain('B612');
      expect(await cold.locator('#standing').isVisible()).toBe(false);
      await cold.locator('.walk-go').click();
      await cold.locator('.walk-bar').waitFor();
      await cold.goto(`${site.address}tarn-60/row-12x20/`);
      expect(await title(cold)).toBe('Not on this phone');
      await cold.locator('#kept a').waitFor();
      expect(faults).toEqual([]);
    } finally {
      await context?.close();
      rmSync(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
    }
  });

  it('keeps several, in either language, and removes one without touching the others', async () => {
    const page = await phone();
    await keep(page);
    await keep(page, `es/${home}`);
    expect(await page.locator('#keep').innerText()).toMatch(/Guardada en este teléfono desde/);
    await page.goto(site.address);
    await page.locator('#kept a').nth(1).waitFor();
    expect(await page.locator('#kept a').count()).toBe(2);
    await page.goto(site.address + home);
    await page.locator('#keep summary').click();
    await page.locator('[data-do="remove"]').click();
    await page.locator('[data-do="keep"]').waitFor();
    site.isDown = true;
    await page.goto(`${site.address}es/${learn}`);
    expect(await page.locator('#steps').isVisible()).toBe(true);
    await page.goto(`${site.address}es/`);
    await page.locator('#kept a').first().waitFor();
    expect(await page.locator('#kept a').count()).toBe(1);
  });
});

describe('a new version', () => {
  it('is offered, not forced: the old pages stay with their own scripts until it is taken', async () => {
    const page = await phone();
    await keep(page);
    site.files = second;
    await page.goto(site.address + learn);
    expect(await title(page)).toBe('Learn the header height range');
    await page.locator('[data-say="revised"]').waitFor();
    expect(await page.locator('#standing').innerText()).toMatch(/revision 99 .* this page is revision 3/);
    // the limits on the list of all values may be old as well; that is known without signal, too
    await page.goto(`${site.address}${home}values.html`);
    await page.locator('[data-say="changed-page"]').waitFor();
    site.isDown = true;
    await page.reload();
    await page.locator('[data-say="changed-page"]').waitFor();
    site.isDown = false;
    // what is the same in both versions is not doubted
    await page.goto(`${site.address}${home}arm-stuck/with-lateral-tilt/`);
    await page.waitForLoadState('networkidle');
    expect(await page.locator('#standing').isVisible()).toBe(false);
    await page.goto(site.address + learn);
    await page.locator('#standing [data-say="revised"] a').click();
    await page.locator('[data-do="update"]').waitFor();
    expect(await panel(page)).toContain('The book has changed since');
    await page.locator('[data-do="update"]').click();
    await page.waitForEvent('load');
    await page.goto(site.address + learn);
    expect(await title(page)).toBe('Learn the height range anew');
    site.isDown = true;
    await page.reload();
    expect(await title(page)).toBe('Learn the height range anew');
  });

  it('is offered while a job rests on these pages, and waits while one is worked on in another window', async () => {
    const page = await phone();
    await keep(page);
    const setJob = (state: string): Promise<void> =>
      page.evaluate(
        async ([path, given]) => {
          const [found] = await indexedDB.databases();
          const db = await new Promise<IDBDatabase>((resolve, reject) => {
            const opening = indexedDB.open(found?.name ?? '');
            opening.onsuccess = () => resolve(opening.result);
            opening.onerror = () => reject(opening.error);
          });
          const change = db.transaction('jobs', 'readwrite');
          change
            .objectStore('jobs')
            .put({ id: 'one', page: { path }, begun: '2026-11-24T00:00:00.000Z', state: given });
          await new Promise((resolve) => {
            change.oncomplete = resolve;
          });
          db.close();
        },
        [learn, state] as const,
      );
    await setJob('open');
    site.files = second;
    await page.goto(site.address + home);
    await page.locator('[data-do="update"]').waitFor();
    expect(await panel(page)).toContain('A job is open on these pages');
    // another window works by them, and goes on with it while the files come: the old set stays
    const other = await page.context().newPage();
    await other.goto(site.address + learn);
    const work = (): Promise<void> =>
      other.evaluate((path) => {
        void navigator.locks.request(`stepgauge-walk ${path}`, () => new Promise(() => undefined));
      }, learn);
    await work();
    await page.reload();
    await page.locator('[data-say="job"]').waitFor();
    expect(await panel(page)).toContain('in another window');
    expect(await page.locator('[data-do="update"]').isVisible()).toBe(false);
    await other.reload();
    await page.reload();
    await page.locator('[data-do="update"]').waitFor();
    await page.evaluate(() => {
      const { fetch } = window;
      const go = new Promise((resolve) => addEventListener('go', resolve));
      window.fetch = (...given) => go.then(() => fetch(...given));
    });
    await page.locator('[data-do="update"]').click();
    await work();
    await page.evaluate(() => dispatchEvent(new Event('go')));
    await page.locator('[data-say="job"]').waitFor();
    await page.goto(site.address + learn);
    expect(await title(page)).toBe('Learn the header height range');
  });

  it('is taken whole or not at all: a server that fails in the midst leaves the old set as it was', async () => {
    const page = await phone();
    await keep(page);
    const steps = [
      {
        files: new Map([...second, [`${learn}index.html`, undefined]]),
        says: 'no signal, or the site does not answer',
      },
      {
        files: new Map([
          ...second,
          [`${learn}index.html`, String(second.get(`${learn}index.html`)).replace('anew', 'ANEW')],
        ]),
        says: 'its files do not fit each other',
      },
    ];
    for (const { files, says } of steps) {
      site.files = files;
      await page.goto(site.address + home);
      await page.locator('[data-do="update"]').click();
      await page.locator('#keep [role="alert"] p:visible').waitFor();
      expect(await panel(page)).toContain(says);
      await page.goto(site.address + learn);
      expect(await title(page)).toBe('Learn the header height range');
    }
    site.files = second;
    await page.goto(site.address + home);
    await page.locator('[data-do="update"]').click();
    await page.waitForEvent('load');
    await page.goto(site.address + learn);
    expect(await title(page)).toBe('Learn the height range anew');
  });

  it('says when the phone has thrown parts away, and fetches them again', async () => {
    const page = await phone();
    await keep(page);
    const dropped = await page.evaluate(async () => {
      const name = (await caches.keys()).find((one) => one.startsWith('stepgauge-files')) ?? '';
      const files = await caches.open(name);
      const [key] = await files.keys();
      return key !== undefined && files.delete(key);
    });
    expect(dropped).toBe(true);
    await page.reload();
    await page.locator('[data-say="torn"]').waitFor();
    await page.locator('[data-do="update"]').click();
    await page.locator('[data-say="kept"]').waitFor();
    await page.evaluate(async () => {
      for (const name of await caches.keys()) await caches.delete(name);
    });
    await page.reload();
    await page.locator('[data-say="evicted"]').waitFor();
    expect(await panel(page)).toContain('the phone has thrown it away');
  });

  it('says that there is no room, and gives back what it took', async () => {
    const page = await phone();
    await page.addInitScript(() => {
      const put = Cache.prototype.put;
      let count = 0;
      Cache.prototype.put = function (...given) {
        count += 1;
        if (count > 5) return Promise.reject(new DOMException('full', 'QuotaExceededError'));
        return put.apply(this, given);
      };
    });
    await page.goto(site.address + home);
    await page.locator('[data-do="keep"]').click();
    await page.locator('[data-say="full"]').waitFor();
    expect(await panel(page)).toMatch(/There is no room: it takes \d/);
    const left = await page.evaluate(async () => {
      const names = await caches.keys();
      const lists = await Promise.all(names.map(async (name) => (await (await caches.open(name)).keys()).length));
      return lists.reduce((sum, count) => sum + count, 0);
    });
    expect(left).toBe(0);
  });

  it('says so where the browser lets nothing be kept', async () => {
    const page = await phone();
    await page.addInitScript(() => {
      caches.has = () => Promise.reject(new DOMException('no', 'SecurityError'));
    });
    await page.goto(site.address + home);
    await page.locator('[data-say="refused"]').waitFor();
    expect(await page.locator('[data-do="keep"]').isVisible()).toBe(false);
  });
});

describe('a page that no longer holds', () => {
  it('shows stop and no steps once it was withdrawn, and still does without signal', async () => {
    const page = await phone();
    await keep(page);
    site.files = withdrawn;
    await page.goto(site.address + learn);
    await page.locator('#standing [data-say="withdrawn"]').waitFor();
    expect(await page.locator('#standing').innerText()).toContain('Withdrawn. Do not use it.');
    expect(await page.locator('#steps').isVisible()).toBe(false);
    site.isDown = true;
    await page.reload();
    await page.locator('#standing [data-say="withdrawn"]').waitFor();
    expect(await page.locator('#steps').isVisible()).toBe(false);
    expect(await page.locator('.end-steps').isVisible()).toBe(false);
    expect(await page.locator('#standing a[href^="tel:"]:visible').isVisible()).toBe(true);
  });

  it('stops a walk that is under way, and leaves the steps that make the machine safe', async () => {
    const page = await phone();
    await page.goto(site.address + learn);
    await page.locator('.walk-go').click();
    await page.locator('.walk-bar').waitFor();
    site.files = withdrawn;
    await page.evaluate(() => window.dispatchEvent(new Event('online')));
    await page.locator('#standing [data-say="withdrawn"]').waitFor();
    expect(await page.locator('.walk-bar').isVisible()).toBe(false);
    expect(await page.locator('#steps').isVisible()).toBe(false);
    const safe = page.locator('.end-steps');
    expect(await safe.innerText()).toContain('Turn the key off.');
    expect(await safe.isVisible()).toBe(true);
    expect(await page.locator('.top h1').isVisible()).toBe(true);
  });

  it('says after so many days that it was not checked, and to call first where it may kill', async () => {
    const page = await phone();
    await keep(page);
    site.isDown = true;
    const now = Date.now();
    const day = 86_400_000;
    await page.clock.setFixedTime(now + 13.9 * day);
    await page.goto(site.address + learn);
    await page.locator('#steps').waitFor();
    expect(await page.locator('#standing').isVisible()).toBe(false);
    await page.clock.setFixedTime(now + 16.5 * day);
    await page.reload();
    await page.locator('[data-say="stale"]').waitFor();
    const words = await page.locator('#standing').innerText();
    expect(words).toContain('Not checked online for 16 days');
    expect(words.replaceAll('\u2011', '-')).toContain('This work can kill. Call 555-0134 before you start.');
    expect(await page.locator('#steps').isVisible()).toBe(true);
    // no hazard that kills: no call
    await page.goto(`${site.address}${home}arm-stuck/`);
    await page.locator('[data-say="stale"]').waitFor();
    expect(await page.locator('.call-first').count()).toBe(0);
    // a clock that was set back does not make a page young again
    await page.clock.setFixedTime(now + day);
    await page.goto(site.address + learn);
    await page.locator('[data-say="clock"]').waitFor();
    expect(await page.locator('.call-first').isVisible()).toBe(true);
    // with signal all is well at once
    site.isDown = false;
    await page.reload();
    await page.locator('#standing').waitFor({ state: 'hidden' });
  });
});

describe('a procedure as one file on a stick', () => {
  it('opens from the disk with its faces and pictures, within its own policy, and asks for nothing', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'stepgauge-stick-'));
    try {
      const { resolved, proofs } = bookOf(smallTexts(), { pass });
      const [file = ''] = exportPages(
        resolved,
        { proofs, assets: bundle() },
        { procedure: 'learn-height-range', language: 'en', isWanted: () => true },
      ).values();
      writeFileSync(join(folder, 'learn.html'), file);
      context = await browser.newContext({ viewport: { width: 360, height: 640 } });
      outside = [];
      const page = await context.newPage();
      const faults: string[] = [];
      page.on('console', (message) => faults.push(message.text()));
      page.on('request', (request) => {
        if (!/^(?:file|data):/.test(request.url())) outside.push(request.url());
      });
      await page.goto(pathToFileURL(join(folder, 'learn.html')).href);
      expect(await title(page)).toBe('Learn the header height range');
      await page.evaluate(() => document.fonts.ready);
      expect(await page.evaluate(() => [...document.fonts].map(({ status }) => status))).toEqual(['loaded', 'loaded']);
      expect(await page.locator('.call-first').isVisible()).toBe(true);
      await page.getByRole('checkbox').first().check();
      await page.locator('#step-1 .step-number a').click();
      expect(new URL(page.url()).hash).toBe('#step-1');
      expect(faults).toEqual([]);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
