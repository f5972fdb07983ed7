// The site of the demo book: every link leads somewhere, every page is valid and safe, the same book gives the same bytes.

import { gzipSync } from 'node:zlib';
import { HtmlValidate } from 'html-validate';
import { describe, expect, it } from 'vitest';
import { emitSite } from '../../src/emit/pages/site.js';
import { demoBook } from './books.js';

const { resolved, proofs, figures } = demoBook();
const assets = new Map(
  [
    'client.js',
    'style.css',
    'listing.css',
    'walk.css',
    'jobs.js',
    'jobs.css',
    'calculators.js',
    'calculators.css',
    'icon.svg',
  ].map((name) => [name, new Uint8Array([1])]),
);
const files = emitSite(resolved, { proofs, figures, assets });
const pages = [...files].filter(
  (entry): entry is [string, string] => typeof entry[1] === 'string' && entry[0].endsWith('.html'),
);

const decode = (text: string): string =>
  text.replaceAll('&amp;', '&').replaceAll('&#39;', "'").replaceAll('&quot;', '"');

describe('the site of the demo book', () => {
  it('has a home for every machine with every header that fits, in both languages', () => {
    expect(resolved.rigs.length).toBeGreaterThan(5);
    for (const { machine, header } of resolved.rigs) {
      for (const language of ['', 'es/']) {
        for (const file of ['index.html', 'symptoms.html', 'changes.html', 'values.html', 'search.json']) {
          expect([file, files.has(`${language}${machine}/${header}/${file}`)]).toEqual([file, true]);
        }
      }
    }
  });

  it('leads from a step that writes a row to the table at the step where it is judged', () => {
    for (const [language, words] of [
      ['', 'It goes into one row of the table at'],
      ['es/', 'Va en una fila de la tabla del'],
    ] as const) {
      const page = String(files.get(`${language}tarn-40/row-12x20/mass-flow/index.html`));
      const step = page.slice(page.indexOf('id="step-9"'), page.indexOf('id="step-10"'));
      const [, said = '', target = ''] = /<p class="into">([^<]*)<a href="#(step-\d+)">/.exec(step) ?? [];
      expect(said.trim()).toBe(words);
      const judging = page.split('<li class="step"').find((part) => part.startsWith(` id="${target}"`));
      expect(judging).toContain('data-value="loads"');
      expect([...page.matchAll(/class="into"/g)].length).toBe(1);
    }
  });

  it('names a step by the number that it has on this page, also where its procedure is run by another', () => {
    const runBefore = (anchor: string): string => anchor.replace(/[^-]+$/, '');
    const named = pages.flatMap(([path, html]) =>
      [...html.matchAll(/<div class="prose">(?:(?!<\/div>)[\s\S])*? step <a href="#(step-[\w-]+)">/g)].map((found) => {
        const before = html.slice(0, found.index);
        const [, own = ''] = /.*<li class="step" id="([^"]+)">/s.exec(before) ?? [];
        return [path, runBefore(found[1] ?? ''), runBefore(own)];
      }),
    );
    expect(named.length).toBeGreaterThan(10);
    expect(named.some(([, run]) => run !== 'step-')).toBe(true);
    for (const [path, run, own] of named) expect([path, run]).toEqual([path, own]);
  });

  it('shows limits that are the same in all versions of a procedure once, and others only to whom they are for', () => {
    for (const [path, html] of pages.filter(([name]) => name.endsWith('/values.html'))) {
      for (const section of html.split('<section class="job"').slice(1)) {
        const lists = [...section.matchAll(/<ul class="rows"( data-only="[^"]*" hidden)?>(.*?)<\/ul>/gs)];
        if (section.includes('class="several"')) {
          expect([path, lists.every(([, only]) => only !== undefined)]).toEqual([path, true]);
          expect([path, new Set(lists.map(([, , rows]) => rows)).size > 1]).toEqual([path, true]);
        } else expect([path, lists.map(([, only]) => only)]).toEqual([path, [undefined]]);
      }
    }
    const home = pages.find(([path]) => path === 'tarn-40/row-12x20/values.html')?.[1] ?? '';
    const learn = home.split('<section class="job"').find((part) => part.includes('Learn the header height range'));
    expect(learn).toContain('3.63 to 4.17');
    expect(learn).not.toContain('choose inside');
  });

  it('gives each variant a page in each of its homes', () => {
    for (const variant of resolved.variants) {
      const titles = variant.rigs.map((rig) => `${rig.machine}/${rig.header}/${variant.procedure.id}/`);
      for (const folder of new Set(titles)) {
        expect([folder, pages.some(([path]) => path.startsWith(folder))]).toEqual([folder, true]);
      }
    }
  });

  // ids and links after the HTML Living Standard; addresses resolved by the URL Standard (WHATWG)
  it('has no link that leads nowhere, and none that leaves the site but the telephone', () => {
    const broken: string[] = [];
    const ids = new Map(
      pages.map(([path, html]) => [path, new Set([...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id))]),
    );
    for (const [path, html] of pages) {
      for (const [, , target = ''] of html.matchAll(/ (href|src)="([^"]*)"/g)) {
        if (target.startsWith('tel:')) continue;
        const url = new URL(decode(target), `https://book.example/${path}`);
        const at = decodeURIComponent(url.pathname.slice(1));
        const file = at === '' || at.endsWith('/') ? `${at}index.html` : at;
        if (url.host !== 'book.example' || !files.has(file)) broken.push(`${path}: ${target}`);
        // numbers for a calculator stand behind its part: `#width-area?rows=12`
        else if (url.hash !== '' && !ids.get(file)?.has(url.hash.slice(1).replace(/\?.*$/, '')))
          broken.push(`${path}: ${target} (no such part)`);
      }
    }
    expect(broken).toEqual([]);
    expect(pages.length).toBeGreaterThan(300);
  });

  it('says yes in the language of the page, where the book leaves it at the key', () => {
    const asked = (path: string): string =>
      String(files.get(path)).match(/<ul class="ways answers">.*?<\/ul>/s)?.[0] ?? '';
    expect(asked('tarn-40/row-12x20/mass-flow/index.html')).toContain('Yes');
    expect(asked('es/tarn-40/row-12x20/mass-flow/index.html')).toContain('Sí');
    expect(asked('es/tarn-40/row-12x20/mass-flow/index.html')).not.toContain('Yes');
  });

  it('links relatively everywhere but on the page for lost addresses, so that any base path will do', () => {
    for (const [path, html] of pages) {
      const absolute = [...html.matchAll(/ (?:href|src)="(\/[^"]*)"/g)];
      if (!path.endsWith('404.html')) expect([path, absolute.length]).toEqual([path, 0]);
    }
  });

  it('carries no style and no script of its own, and a policy that forbids both', () => {
    for (const [path, html] of pages) {
      expect([
        path,
        / style="/.test(html),
        /<style/.test(html),
        / on[a-z]+="/.test(html),
        /<script(?![^>]* src=)/.test(html),
      ]).toEqual([path, false, false, false, false]);
      const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1] ?? '';
      expect(policy).toContain("default-src 'none'");
      expect(policy).not.toContain('unsafe');
    }
  });

  it('is valid HTML', async () => {
    const validate = new HtmlValidate({
      extends: ['html-validate:standard'],
    });
    // one page of each kind and language, and every page of one home
    const chosen = pages.filter(
      ([path]) => path.startsWith('tarn-40/row-12x20/') || path.startsWith('es/corrie-9/') || !path.includes('/'),
    );
    const faults: string[] = [];
    for (const [path, html] of chosen) {
      const report = await validate.validateString(html, path);
      for (const { messages } of report.results) {
        faults.push(...messages.map(({ ruleId, message, line }) => `${path}:${line} ${ruleId}: ${message}`));
      }
    }
    expect(chosen.length).toBeGreaterThan(60);
    expect(faults).toEqual([]);
  });

  it('keeps every number with its unit on one line', () => {
    for (const [path, html] of pages) {
      const limits = [...html.matchAll(/class="(?:limits|limits-inline)">([^<]*)</g)].map(([, text = '']) => text);
      expect([path, limits.filter((text) => /\d (?!to|a|at|±|\+)\S/.test(text))]).toEqual([path, []]);
    }
  });

  it('gives the same bytes for the same book', () => {
    const again = emitSite(resolved, { proofs, figures, assets });
    expect([...again.keys()]).toEqual([...files.keys()]);
    for (const [path, content] of files) expect([path, again.get(path) === content]).toEqual([path, true]);
  });

  it('keeps a procedure page and the first answer of a search small', () => {
    for (const [path, html] of pages) expect([path, gzipSync(html).length < 16_000]).toEqual([path, true]);
    for (const [path, text] of files) {
      if (path.endsWith('/search.json')) expect([path, gzipSync(String(text)).length < 8_000]).toEqual([path, true]);
    }
  });

  it('shows every hazard in Spanish on Spanish pages, for the demo book has them all', () => {
    for (const [path, html] of pages) {
      if (path.startsWith('es/')) expect([path, html.includes('class="untranslated"')]).toEqual([path, false]);
    }
  });

  it('says the same numbers on a page and on its Spanish mirror', () => {
    const numbers = (html: string): readonly string[] =>
      [...html.matchAll(/class="limits">([^<]*)</g)].flatMap(([, text = '']) => text.match(/-?\d+(?:\.\d+)?/g) ?? []);
    let compared = 0;
    for (const [path, html] of pages) {
      const mirror = files.get(`es/${path}`);
      if (typeof mirror !== 'string') continue;
      expect([path, numbers(mirror)]).toEqual([path, numbers(html)]);
      compared += numbers(html).length;
    }
    expect(compared).toBeGreaterThan(100);
  });
});
