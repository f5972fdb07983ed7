// Whoever does not know an option, or the header, has what holds either way without signal, and is stopped there as well.
// biome-ignore-all lint/performance/useDomNodeTextContent: what a person sees counts, not what the markup holds

import { describe, expect, it } from 'vitest';
import { phoneFor } from './kept-phone.js';
import { edit, siteWith } from './small-sites.js';

const home = 'tarn-40/row-12x20/';
const first = siteWith(() => {});
const withdrawn = siteWith((texts) => edit(texts, 'wrong/arm-stuck.md', 'status: released', 'status: withdrawn'));

const phone = phoneFor(first);

describe('a person who does not know', () => {
  it('an option of a kept machine, goes on without signal to what holds either way', async () => {
    const page = await phone.keep(home);
    phone.site.isDown = true;
    await page.goto(`${phone.site.address}${home}arm-stuck/`);
    await page.locator('#versions .unknown a').click();
    await page.waitForURL(`**/${home}arm-stuck/any/`);
    expect(await page.locator('#steps').innerText()).toContain('Is there mud on the arm?');
    expect(await page.locator('.differs').first().isVisible()).toBe(true);
  });

  it('the header, keeps those pages and reads them without signal', async () => {
    const page = await phone.keep('tarn-40/any/');
    phone.site.isDown = true;
    await page.goto(phone.site.address);
    expect(await page.locator('#kept a').innerText()).toContain('Tarn 40 · any header');
    await page.locator('#kept a').click();
    await page.locator('.entries a[href*="arm-stuck"]').click();
    await page.waitForURL('**/tarn-40/any/arm-stuck/');
    expect(await page.locator('#steps').innerText()).toContain('Is there mud on the arm?');
    // which header it is can be found out as well
    await page.locator('.applies a').click();
    await page.waitForURL('**/tarn-40/');
    expect(await page.locator('h1').innerText()).toBe('Tarn 40');
  });
});

describe('a choice of machine or header', () => {
  it('says that it needs signal where it leads to nothing that is kept', async () => {
    const page = await phone.keep(home);
    phone.site.isDown = true;
    const marked = async (path: string): Promise<readonly string[]> => {
      await page.goto(phone.site.address + path);
      await page.locator('.choices .unknown .aside').waitFor();
      return page.locator('.choices[data-needs-signal] li').allInnerTexts();
    };
    const says = /Not kept on this phone: needs signal\./;
    const [own = '', ...others] = await marked('');
    expect([own, others.length > 1, others.every((text) => says.test(text))]).toEqual(['Tarn 40', true, true]);
    const headers = await marked('tarn-40/');
    expect(headers.filter((text) => !says.test(text))).toEqual(['12-row header, 20 in rows']);
    // what is kept as well needs none
    phone.site.isDown = false;
    await page.goto(`${phone.site.address}tarn-40/any/`);
    await page.locator('[data-do="keep"]').click();
    await page.locator('[data-say="kept"]').waitFor();
    phone.site.isDown = true;
    await page.goto(`${phone.site.address}tarn-40/`);
    await page.locator('.choices .aside').first().waitFor();
    expect(await page.locator('.choices .unknown').innerText()).toBe('I do not know');
  });
});

describe('a page of what holds either way', () => {
  it('says stop once its procedure was withdrawn, and how long it was not checked', async () => {
    const page = await phone.keep(home);
    const path = `${phone.site.address}${home}arm-stuck/any/`;
    phone.site.isDown = true;
    await page.clock.setFixedTime(Date.now() + 16.5 * 86_400_000);
    await page.goto(path);
    await page.locator('[data-say="stale"]').waitFor();
    phone.site.isDown = false;
    phone.site.files = withdrawn;
    await page.reload();
    await page.locator('#standing [data-say="withdrawn"]').waitFor();
    expect(await page.locator('#steps').isVisible()).toBe(false);
  });
});
