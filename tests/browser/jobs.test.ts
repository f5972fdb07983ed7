// The page of jobs and the record in a real browser: storage that is refused or full, records filled in, closed, amended
// and handed over, pages found wrong.
// biome-ignore-all lint/performance/useDomNodeTextContent: what a person sees counts, not what the markup holds

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { smallBook } from '../emit-pages/small-book.js';
import { accessFaults, widthsAt320 } from './accessibility.js';
import { seed } from './seed-jobs.js';
import { buildSite, openBrowser, type ServedSite, serveBelow } from './site-server.js';

const base = '/books/small/';

let browser: Browser;
let site: ServedSite;

beforeAll(async () => {
  site = await serveBelow(base, buildSite(smallBook()));
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  site?.server.close();
});

/** A page at the size of a phone, and that nothing in it went wrong or was asked of anybody else. */
async function on<T>(path: string, options: BrowserContextOptions, run: (page: Page) => Promise<T>): Promise<T> {
  const context = await browser.newContext({ viewport: { width: 360, height: 640 }, ...options });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('request', (request) => {
    if (!request.url().startsWith(site.address) && !request.url().startsWith('blob:')) faults.push(request.url());
  });
  page.on('pageerror', (fault) => faults.push(String(fault)));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  await page.goto(site.address + path);
  const result = await run(page);
  expect({ path, faults }).toEqual({ path, faults: [] });
  await context.close();
  return result;
}

/** The page of jobs with an open job, another, and a closed one. */
function onJobs<T>(path: string, options: BrowserContextOptions, run: (page: Page) => Promise<T>): Promise<T> {
  return on('jobs.html', options, async (page) => {
    await page.locator('#jobs h2').first().waitFor();
    await page.evaluate(seed, `stepgauge ${base}`);
    await page.goto(`${site.address}${path}`);
    await page.reload();
    await page.locator('#jobs section').first().waitFor();
    return run(page);
  });
}

const [open, closed] = ['a', 'c'].map((sign) => `jobs.html#record=${sign.repeat(32)}`) as [string, string];

describe('a phone that keeps nothing', () => {
  const words = (page: Page): Promise<string> => page.getByRole('alert').innerText();

  it('is said to: storage refused', async () => {
    await on('jobs.html', {}, async (page) => {
      await page.addInitScript(() => Object.defineProperty(window, 'indexedDB', { value: undefined }));
      await page.reload();
      expect(await words(page)).toContain('This phone keeps nothing for this site');
      await page.goto(`${site.address}es/jobs.html`);
      expect(await words(page)).toContain('Este teléfono no guarda nada de este sitio');
    });
  });

  it('is said to: its store is full, by the measure of the browser itself', async () => {
    await on('codes.html', {}, async (page) => {
      const session = await page.context().newCDPSession(page);
      const { origin } = new URL(site.address);
      await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 150_000 });
      // some versions tell every page the same large quota; there the page is told the small one by hand
      const told = (await page.evaluate(() => navigator.storage.estimate())).quota ?? 0;
      if (told > 150_000) {
        await page.addInitScript(() => {
          StorageManager.prototype.estimate = () => Promise.resolve({ quota: 150_000, usage: 0 });
        });
      }
      await page.goto(`${site.address}jobs.html`);
      expect(await words(page)).toContain('The store of this phone is full');
    });
  });

  it('is said to have cleared a job, until somebody has read it', async () => {
    await on('jobs.html', {}, async (page) => {
      const note = {
        id: 'd'.repeat(32),
        title: 'Check the sensors',
        rig: 'Tarn 40',
        begun: '2026-11-20T08:00:00.000Z',
      };
      await page.evaluate(([key, notes]) => localStorage.setItem(key, notes), [
        `stepgauge-jobs ${base}`,
        JSON.stringify([note]),
      ] as const);
      await page.reload();
      expect(await words(page)).toMatch(/The phone cleared these jobs.*Check the sensors/s);
      await page.getByRole('button', { name: 'I have read this' }).click();
      await page.getByRole('alert').waitFor({ state: 'detached' });
      await page.reload();
      await page.locator('#jobs h2').first().waitFor();
      expect(await page.getByRole('alert').count()).toBe(0);
    });
  });

  it('does not pretend to have kept that a page is wrong', async () => {
    await on('tarn-40/row-12x20/learn-height-range/', {}, async (page) => {
      await page.addInitScript(() => Object.defineProperty(window, 'indexedDB', { value: undefined }));
      await page.reload();
      await page.getByRole('button', { name: 'This page is wrong' }).click();
      await page.getByLabel('What is wrong, and what it should say').fill('The lamp is on the right.');
      await page.getByRole('button', { name: 'Keep it' }).click();
      await page.getByText('Not kept: this phone allows no storage').waitFor();
    });
  });
});

describe('this page is wrong', () => {
  it('is one press on a procedure, is kept, listed, handed over and deleted', async () => {
    await on('tarn-40/row-12x20/learn-height-range/', { acceptDownloads: true }, async (page) => {
      await page.getByRole('button', { name: 'This page is wrong' }).click();
      await page.getByLabel('Where').selectOption({ label: 'Step 2' });
      await page.getByLabel('What is wrong, and what it should say').fill('The lamp is on the right.');
      await page.getByRole('button', { name: 'Keep it' }).click();
      await page.getByRole('link', { name: 'To the jobs on this phone' }).click();
      const report = page.locator('.report');
      expect(await report.innerText()).toMatch(/Learn the header height range.*Step 2.*The lamp is on the right\./s);
      const [file] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save as file' }).click(),
      ]);
      const json: unknown = JSON.parse(readFileSync(await file.path(), 'utf8'));
      expect([file.suggestedFilename(), faultsBy('job-wrong-pages', json)]).toEqual(['wrong-pages.json', []]);
      await report.getByRole('button', { name: /^Delete/ }).click();
      await page.getByRole('button', { name: 'Delete it' }).click();
      await report.waitFor({ state: 'detached' });
    });
  });
});

const ajv = new Ajv2020({ strict: false, allErrors: true, validateFormats: false });

function faultsBy(name: string, json: unknown): unknown {
  const schema = JSON.parse(
    readFileSync(join(import.meta.dirname, `../../schema/${name}.schema.json`), 'utf8'),
  ) as object;
  const validate = ajv.compile(schema);
  return validate(json) ? [] : validate.errors;
}

describe('the jobs on a phone', () => {
  it('are listed with where they stand, and a link that goes on', async () => {
    await onJobs('jobs.html', {}, async (page) => {
      const entry = page.locator('.entries > li').first();
      expect(await entry.innerText()).toMatch(/Check and set the height sensors.*Stands at: step 9.*readings: 4/s);
      const href = await entry.getByRole('link').first().getAttribute('href');
      expect(href).toBe(`./tarn-40/row-12x20/check-height-sensor/#job=${'a'.repeat(32)}`);
    });
  });

  it('stand at the head of the home that they belong to, with where they stand', async () => {
    await onJobs('jobs.html', {}, async (page) => {
      // the note outside the store that each job leaves
      await page.evaluate(() => localStorage.setItem('stepgauge-jobs seeded', '["a"]'));
      await page.goto(`${site.address}tarn-40/row-12x20/`);
      const entry = page.locator('#open-jobs > li').first();
      expect(await entry.innerText()).toMatch(/Go on with the work: Check and set the height sensors.*step 9/s);
      expect((await entry.boundingBox())?.y).toBeLessThan(500);
    });
  });

  it('show of what was chosen in a table what the page called it', async () => {
    await onJobs(closed, {}, async (page) => {
      const cells = await page.locator('#jobs .scroll tbody tr').first().locator('td').allTextContents();
      expect(cells).toContain('much grain');
      expect(cells).not.toContain('high');
    });
  });

  it('are deleted only after saying what is lost, which Escape prevents', async () => {
    await onJobs('jobs.html', {}, async (page) => {
      const remove = page.getByRole('button', { name: /^Delete: Check/ }).first();
      await remove.click();
      const dialog = page.getByRole('dialog');
      expect(await dialog.innerText()).toMatch(/readings: 4, photos: 1, notes: 1.*never sent.*nobody else has it/s);
      await page.keyboard.press('Escape');
      expect(await page.locator('.entries > li').count()).toBe(3);
      await remove.click();
      await page.getByRole('button', { name: 'Delete it' }).click();
      await page.waitForFunction(() => document.querySelectorAll('.entries > li').length === 2);
      await page.reload();
      await page.locator('.entries').first().waitFor();
      expect(await page.locator('.entries > li').count()).toBe(2);
    });
  });

  it('are filled in, signed, closed, and then only amended, by keyboard where no finger is needed', async () => {
    await onJobs(open, { acceptDownloads: true }, async (page) => {
      expect(await page.locator('.found-left > li').first().innerText()).toMatch(
        /3\.41\sV.*outside, too low.*3\.90\sV.*inside/s,
      );
      await page.getByLabel('Who did it').focus();
      await page.keyboard.type('R. Quill');
      await page.keyboard.press('Tab');
      await page.getByText('Kept.').waitFor();
      const sheet = page.locator('.sign-here');
      await sheet.scrollIntoViewIfNeeded();
      const box = await sheet.boundingBox();
      if (!box) throw new Error('There is nothing to sign on');
      await page.mouse.move(box.x + 20, box.y + 20);
      await page.mouse.down();
      await page.mouse.move(box.x + 120, box.y + 60);
      await page.mouse.up();
      await page.getByRole('button', { name: 'Keep the signature' }).click();
      await page.locator('.signature canvas').waitFor();
      expect(await page.getByLabel('Who did it').inputValue()).toBe('R. Quill');
      await page.getByRole('button', { name: 'Close the job' }).press('Enter');
      await page.getByRole('button', { name: 'Close it' }).press('Enter');
      await page.getByText('Add to this record').click();
      expect(await page.getByLabel('Who did it').count()).toBe(0);
      await page.getByLabel('What', { exact: true }).selectOption('engine-hours');
      await page.getByLabel('What is to be added').fill('1420');
      await page.getByRole('button', { name: 'Add it' }).click();
      await page.getByText('All of these are needed.').waitFor();
      await page.getByLabel('Your name').fill('R. Quill');
      await page.getByLabel('Why').fill('It was forgotten.');
      await page.getByRole('button', { name: 'Add it' }).click();
      await page.getByRole('heading', { name: 'Added after closing' }).waitFor();
      const [file] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save as file' }).click(),
      ]);
      const json = JSON.parse(readFileSync(await file.path(), 'utf8')) as {
        readonly photos: readonly { readonly picture?: string }[];
        readonly facts: readonly { readonly name: string; readonly text: string }[];
        readonly amendments: readonly { readonly text: string }[];
        readonly state: string;
      };
      expect(faultsBy('job-record', json)).toEqual([]);
      expect(json.state).toBe('closed');
      expect(json.photos[0]?.picture).toMatch(/^data:image\/jpeg;base64,/);
      expect(json.facts.map(({ name }) => name)).toEqual(['who', 'signature']);
      expect(json.amendments.map(({ text }) => text)).toEqual(['1420']);
      await page.goto(`${site.address}jobs.html`);
      await page.getByText(/sent \d/).waitFor();
    });
  });

  it('are sent by the phone as a text file, and as a download where it cannot', async () => {
    await onJobs(closed, { acceptDownloads: true }, async (page) => {
      await page.addInitScript(() => {
        const sent: string[] = [];
        Object.assign(window, { sent, refuse: false });
        Object.assign(navigator, {
          canShare: () => true,
          share: async ({ files }: { files: File[] }) => {
            if ((window as unknown as { refuse: boolean }).refuse) throw new DOMException('', 'NotAllowedError');
            sent.push(
              `${files[0]?.name} ${(JSON.parse((await files[0]?.text()) ?? '{}') as { format: string }).format}`,
            );
          },
        });
      });
      await page.reload();
      await page.getByRole('button', { name: 'Send the record' }).click();
      await page.waitForFunction(() => (window as unknown as { sent: string[] }).sent.length > 0);
      expect(await page.evaluate(() => (window as unknown as { sent: string[] }).sent)).toEqual([
        'record-check-height-sensor-2026-11-23-cccccccc.json.txt stepgauge-record',
      ]);
      await page.evaluate(() => Object.assign(window, { refuse: true }));
      await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Send the record' }).click()]);
      await page.getByText('It was saved as a file instead').waitFor();
    });
  });
});

describe('the pages of jobs', () => {
  const views = ['jobs.html', open, closed, `es/${open}`, `es/${closed}`];

  it('have no fault of accessibility, and scroll in one direction only', async () => {
    for (const path of views) {
      await onJobs(path, {}, async (page) => {
        expect([path, await widthsAt320(page)]).toEqual([path, [320, 320]]);
        expect([path, await accessFaults(page)]).toEqual([path, []]);
      });
    }
  }, 120_000);

  it('print a record whole, without what is only pressed', async () => {
    await onJobs(closed, {}, async (page) => {
      await page.emulateMedia({ media: 'print' });
      expect(await page.getByRole('button').filter({ visible: true }).count()).toBe(0);
      const heights = await page
        .locator('.record-details .record-rows')
        .evaluateAll((lists) => lists.map((list) => list.getBoundingClientRect().height > 10));
      // the way through the steps is printed where somebody unfolded it
      expect(heights).toEqual([true, true, false]);
    });
  });
});
