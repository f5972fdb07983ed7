// The sets of files that a phone keeps, and the status: whole, no larger than need be, and another version for any change.

import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { withdrawnCards } from '../../src/emit/cards/card-codes.js';
import { linkedFiles, resolveLink } from '../../src/emit/offline/kept-files.js';
import { offlineFiles } from '../../src/emit/offline/offline-files.js';
import type { BookStatus, SetList } from '../../src/emit/offline/shapes.js';
import { emitSite } from '../../src/emit/pages/site.js';
import { mapSite } from '../../src/emit/pages/site-map.js';
import { bookOf } from '../emit-pages/books.js';
import { smallTexts } from '../emit-pages/small-book.js';

const assets = new Map(
  ['client.js', 'style.css', 'icon.svg', 'worker.js', 'fonts/a.woff2'].map((name) => [name, new Uint8Array([1, 2])]),
);

function outputOf(change: (texts: Map<string, string>) => void = () => {}) {
  const texts = smallTexts();
  change(texts);
  const { resolved, proofs } = bookOf(texts, { pass: ['missing-language', 'raw-html', 'unknown-procedure'] });
  const cards = resolved.variants
    .filter(({ procedure }) => procedure.id === 'learn-height-range')
    .flatMap(({ id, rigs }, i) =>
      [...new Set(rigs.map(({ machine }) => machine))].map((machine) => ({
        variant: id,
        machine,
        language: 'en',
        path: `cards/${machine}/learn-${i}.pdf`,
        code: `AAA${machine.slice(-2)}${i}`,
        alsoCodes: [],
      })),
    );
  const other = { code: 'GGGGGG', machine: 'tarn-20', procedure: 'learn', title: { en: 'Learn' }, revision: 1 };
  const history = { stretches: [], cards: new Map(), gone: [{ ...other, date: '2025-03-01' }] };
  const site = emitSite(resolved, { proofs, assets, cards, history });
  for (const { path } of cards) site.set(path, new Uint8Array([3]));
  const added = offlineFiles(resolved, { ...mapSite(resolved, { drafts: false }), gone: history.gone }, site);
  const read = <T>(path: string): T => JSON.parse(added.get(path) ?? 'null') as T;
  return {
    site,
    added,
    gone: [...withdrawnCards(resolved), other],
    status: read<BookStatus>('status.json'),
    list: (at: string) => read<SetList>(`${at}offline.json`),
  };
}

const home = 'tarn-40/row-12x20/';
const output = outputOf();

describe('the set of a home', () => {
  it('is listed for every home, and for whoever does not know header or machine, in every language of the interface', () => {
    const homes = [...output.site.keys()].filter((path) => path.endsWith('/symptoms.html'));
    expect(homes.length).toBeGreaterThan(4);
    const unknown = ['any/', 'tarn-40/any/'].flatMap((folder) => [folder, `es/${folder}`]);
    const folders = [...homes.map((path) => path.replace('symptoms.html', '')), ...unknown];
    expect(Object.keys(output.status.sets).sort()).toEqual(folders.sort());
    for (const folder of Object.keys(output.status.sets)) expect(output.list(folder).folder).toBe(folder);
  });

  it('holds whatever its pages show or run, and every page they lead to but those of other rigs, of the desk, and of other languages', () => {
    for (const folder of Object.keys(output.status.sets)) {
      const kept = new Set(output.list(folder).files.map(([path]) => path));
      const language = folder.startsWith('es/') ? 'es/' : '';
      for (const path of kept) {
        const page = output.site.get(path);
        expect([path, page !== undefined]).toEqual([path, true]);
        if (typeof page !== 'string' || !path.endsWith('.html')) continue;
        const lost = linkedFiles(path, page, output.site).filter((link) => !kept.has(link));
        const strangers = lost.filter((link) => {
          const inner = link.slice(language.length);
          return link.startsWith('es/') === (language === '') || /^(?:any|staff|u|tarn-\d\d|c)\//.test(inner);
        });
        expect([path, lost]).toEqual([path, strangers]);
        if (path.startsWith(folder)) expect([path, lost.filter((link) => link.startsWith(folder))]).toEqual([path, []]);
      }
    }
  });

  it('has the start, the search, the fonts, its own cards with the pages of their codes, and no other machine', () => {
    const kept = output.list(home).files.map(([path]) => path);
    for (const path of ['index.html', 'codes.html', 'not-kept.html', `${home}search.json`, 'assets/fonts/a.woff2']) {
      expect(kept).toContain(path);
    }
    expect(kept.filter((path) => path.endsWith('.pdf')).every((path) => path.startsWith('cards/tarn-40/'))).toBe(true);
    expect(kept.filter((path) => path.endsWith('.pdf')).length).toBeGreaterThan(0);
    expect(kept.filter((path) => path.startsWith('c/')).length).toBeGreaterThan(0);
    expect(kept.filter((path) => /^(?:tarn-60|es|data)\//.test(path))).toEqual([]);
    expect(kept).not.toContain('status.json');
    expect(kept).not.toContain('worker.js');
    expect(kept).not.toContain(`${home}offline.json`);
  });

  it('has the pages that say stop to whoever scans an old card of the machine, or of one that the book has no more', () => {
    const own = output.gone.filter(({ machine }) => machine === 'tarn-40');
    expect([own.length > 0, output.gone.length > own.length + 1]).toEqual([true, true]);
    for (const language of ['', 'es/']) {
      for (const folder of [home, 'tarn-40/platform-30/', 'tarn-40/any/', 'any/']) {
        const kept = new Set(output.list(language + folder).files.map(([path]) => path));
        for (const { code, machine } of output.gone) {
          const path = `${language}c/${code.toLowerCase()}/index.html`;
          const isMeant = folder === 'any/' || machine === 'tarn-40' || machine === 'tarn-20';
          expect([folder, path, kept.has(path)]).toEqual([folder, path, isMeant]);
          expect(output.site.get(path)).toMatch(/<div class="stop card-old" role="alert"><p><b>/);
        }
      }
    }
  });

  it('has the page of what holds either way, for a person who does not know an option, and its bytes count', () => {
    const { files, bytes } = output.list(home);
    const own = files.filter(([path]) => path === `${home}arm-stuck/any/index.html`);
    expect(own.map(([, , size]) => size)).toEqual([Buffer.byteLength(String(output.site.get(own[0]?.[0] ?? '')))]);
    expect(bytes).toBeGreaterThan(own[0]?.[2] ?? 0);
  });

  it('of what holds either way has its own pages and the way to tell, and no page of one rig', () => {
    const kept = output.list('tarn-40/any/').files.map(([path]) => path);
    for (const path of [
      'tarn-40/any/index.html',
      'tarn-40/any/arm-stuck/index.html',
      'tarn-40/index.html',
      'index.html',
    ])
      expect(kept).toContain(path);
    expect(kept.filter((path) => /^(?:tarn-\d\d\/(?!any\/|index)|any\/|es\/)/.test(path))).toEqual([]);
    const all = output.list('es/any/').files.map(([path]) => path);
    expect(all).toContain('es/any/arm-stuck/index.html');
    expect(all.filter((path) => path.startsWith('es/tarn-'))).toEqual([]);
    expect(output.status.sets['tarn-40/any/']?.[1]).toBe(output.list('tarn-40/any/').bytes);
  });

  it('gives each file with the first half of its SHA-256 and its bytes, and their sum', () => {
    const { files, bytes } = output.list(home);
    for (const [path, digest, size] of files) {
      const content = Buffer.from(output.site.get(path) ?? '');
      expect([path, size, digest]).toEqual([
        path,
        content.length,
        createHash('sha256').update(content).digest('hex').slice(0, 32),
      ]);
    }
    expect(bytes).toBe(files.reduce((sum, [, , size]) => sum + size, 0));
    expect(output.status.sets[home]).toEqual([output.list(home).version, bytes, files.length]);
  });

  it('is another version after a change, and the same without one', () => {
    const same = outputOf();
    expect([...same.added]).toEqual([...output.added]);
    const changed = outputOf((texts) => {
      const path = 'headers/platform-30.yaml';
      texts.set(path, (texts.get(path) ?? '').replace(/^name: .*$/m, 'name: Another platform'));
    });
    expect(changed.status.version).not.toBe(output.status.version);
    expect(changed.status.sets['tarn-40/platform-30/']?.[0]).not.toBe(output.status.sets['tarn-40/platform-30/']?.[0]);
  });
});

describe('the status', () => {
  it('says the revision of every procedure that has pages, and which are withdrawn', () => {
    expect(output.status.procedures).toEqual({ 'arm-stuck': 2, 'learn-height-range': 3, withdrawn: 2 });
    expect(output.status.withdrawn).toEqual(['withdrawn']);
  });

  it('knows no day: the same book gives the same bytes', () => {
    expect(outputOf().added.get('status.json')).toBe(output.added.get('status.json'));
    expect(output.added.get('status.json')).not.toMatch(/20\d\d-/);
  });
});

describe('scripts and styles', () => {
  it('have another name for another content, and pages name the one they were built with', () => {
    const names = [...output.site.keys()].filter((path) =>
      /^assets\/(?:client|style)-[0-9a-f]{8}\.(?:js|css)$/.test(path),
    );
    expect(names.length).toBe(2);
    const page = String(output.site.get(`${home}index.html`));
    for (const name of names) expect(page).toContain(`="../../${name}"`);
    expect(output.site.has('worker.js')).toBe(true);
  });
});

// RFC 3986, section 5.2: the same answers as the URL Standard's parser, for the relative links that pages have
describe('a link', () => {
  it('leads where a browser would go', () => {
    const links = ['./', '../', '../../', 'x/', 'x.html', '../../assets/a.css', '../b/c.html', './d.svg'];
    for (const from of ['index.html', 'a/b/index.html', 'a/b/c/index.html']) {
      for (const link of links) {
        const path = new URL(link, `https://book.example/${from}`).pathname.slice(1);
        const climbs = link.split('../').length - 1 > from.split('/').length - 1;
        const expected = climbs ? undefined : path === '' || path.endsWith('/') ? `${path}index.html` : path;
        expect([from, link, resolveLink(from, link)]).toEqual([from, link, expected]);
      }
    }
    expect(resolveLink('index.html', 'tel:555')).toBeUndefined();
    expect(resolveLink('index.html', 'https://book.example/')).toBeUndefined();
    expect(resolveLink('index.html', '/x')).toBeUndefined();
  });
});
