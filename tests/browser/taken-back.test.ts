// What was withdrawn, or has left the book, since a phone kept its pages: every list says so in a real browser.
// biome-ignore-all lint/performance/useDomNodeTextContent: what a person sees counts, not what the markup holds

import { describe, expect, it } from 'vitest';
import { phoneFor } from './kept-phone.js';
import { edit, siteWith } from './small-sites.js';

const home = 'tarn-40/row-12x20/';
const learn = `${home}learn-height-range/`;
const procedure = 'sensors/learn-height-range.md';
const first = siteWith(() => {});
const withdrawn = siteWith((texts) => edit(texts, procedure, 'status: released', 'status: withdrawn'));
const without = siteWith((texts) => edit(texts, 'wrong/make-safe.md', 'status: released', 'status: draft'));

const phone = phoneFor(first);

describe('a scanned card', () => {
  it('of a withdrawn procedure says stop without signal, and one that is not kept that nobody can say', async () => {
    phone.site.files = withdrawn;
    const page = await phone.keep(home);
    phone.site.isDown = true;
    const codes = [...withdrawn.keys()].filter((path) => /^c\//.test(path));
    const code = codes.find((path) => /stop card-old/.test(String(withdrawn.get(path)))) ?? '';
    await page.goto(`${phone.site.address}${code.replace('index.html', '')}#3`);
    expect(await page.locator('.stop').innerText()).toContain('is withdrawn. Do not work by it');
    await page.goto(`${phone.site.address}c/qqqqqq/#3`);
    expect(await page.locator('h1').innerText()).toBe('Not on this phone');
    expect(await page.locator('.stop').innerText()).toContain('Do not work by it: call 555');
    await page.goto(`${phone.site.address}tarn-60/`);
    expect(await page.locator('h1').innerText()).toBe('Not on this phone');
    expect(await page.locator('.stop').isVisible()).toBe(false);
  });
});

describe('the lists of a kept machine', () => {
  it('mark what was withdrawn since, with signal and without, and give no value and no hit of it', async () => {
    const page = await phone.keep(home);
    phone.site.files = withdrawn;
    for (const isDown of [false, true]) {
      phone.site.isDown = isDown;
      await page.goto(phone.site.address + home);
      const row = page.locator('#listing [data-of="learn-height-range"] .taken');
      await row.waitFor();
      expect(await row.innerText()).toBe('Withdrawn. Do not use it.');
      expect(await page.locator('#listing [data-of="arm-stuck"] .taken').count()).toBe(0);
      await page.getByRole('searchbox').fill('sensor raised');
      const hit = page.locator('.hit[data-of="learn-height-range"]');
      await hit.locator('.taken').waitFor();
      expect(await hit.innerText()).not.toMatch(/\d\sV/);
      await page.goto(`${phone.site.address}${home}values.html`);
      const values = page.locator('[data-of="learn-height-range"]');
      await values.locator('.taken').waitFor();
      expect(await values.innerText()).not.toMatch(/\d\sV/);
      await page.goto(`${phone.site.address}${home}symptoms.html`);
      await page.locator('[data-of="learn-height-range"] .taken').first().waitFor();
      await page.goto(`${phone.site.address}${home}changes.html`);
      await page.locator('[data-of="learn-height-range"] .taken').first().waitFor();
    }
  });

  it('take the mark back once it is released again', async () => {
    const page = await phone.keep(home);
    phone.site.files = withdrawn;
    await page.goto(phone.site.address + home);
    const mark = page.locator('#listing [data-of="learn-height-range"] .taken');
    await mark.waitFor();
    phone.site.files = first;
    await page.evaluate(() => window.dispatchEvent(new Event('online')));
    await mark.waitFor({ state: 'detached' });
  });

  it('say what has left the book', async () => {
    const page = await phone.keep(home);
    phone.site.files = without;
    await page.goto(phone.site.address + home);
    const mark = page.locator('#listing [data-of="make-safe"] .taken');
    await mark.waitFor();
    expect(await mark.innerText()).toBe('No longer in the book. Do not use it.');
  });
});

describe('a job that is open', () => {
  it('is marked in the list of jobs once its procedure was withdrawn', async () => {
    const page = await phone.open();
    await page.goto(phone.site.address + learn);
    await page.locator('.walk-go').click();
    await page.locator('.walk-bar .main').click();
    await page.locator('#before.walk-here').waitFor();
    await page.goto(`${phone.site.address}jobs.html`);
    await page.locator('[data-of="learn-height-range"]').waitFor();
    expect(await page.locator('.taken').count()).toBe(0);
    phone.site.files = withdrawn;
    await page.reload();
    await page.locator('[data-of="learn-height-range"] .taken').waitFor();
  });
});

describe('a page that was added since the site was asked', () => {
  it('is shown once the site has answered: an old answer knows nothing of it', async () => {
    phone.site.files = without;
    const page = await phone.open();
    const asked = page.waitForResponse('**/status.json');
    await page.goto(phone.site.address + home);
    await asked;
    await page.waitForFunction(() => Object.keys(localStorage).some((key) => key.startsWith('stepgauge-check')));
    phone.site.files = first;
    await page.goto(`${phone.site.address}${home}make-safe/`);
    await page.locator('#standing').waitFor({ state: 'hidden' });
    await page.waitForFunction(() => !document.body.classList.contains('taken-back'));
    expect(await page.locator('#steps').isVisible()).toBe(true);
  });
});
